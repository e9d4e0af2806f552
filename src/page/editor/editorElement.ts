import { html, nothing, type PropertyValues } from 'lit';
import type { CellProblem, CellState } from '../../workbook/engineTypes.ts';
import { LightElement } from '../light.ts';
import { idleTurn } from '../results/idleTurn.ts';
import { plainLines } from './codeLine.ts';
import type { CodeEditor, EditorModule, Offer } from './types.ts';

/** Pause in typing after which a cell runs by itself. */
const RUN_AFTER_MS = 250;

/** Editors within this distance of what is visible are made ready. */
const NEAR = '800px 0px';

const underlined = (state: CellState): (CellProblem & { severity: 'error' | 'warning' })[] => [
  ...(state.problem && state.phase === 'failed' ? [{ ...state.problem, severity: 'error' as const }] : []),
  ...state.warnings.map((warning) => ({ ...warning, severity: 'warning' as const })),
];

/**
 * The code of one cell: plain text of the same measure until the editor has loaded and the cell is near the
 * visible part, so that nothing moves when the editor takes its place.
 */
export class HourEditor extends LightElement {
  static override properties = {
    state: { attribute: false },
    load: { attribute: false },
    offers: { attribute: false },
    edit: { attribute: false },
    missing: { state: true },
  };

  declare state: CellState;
  declare load: () => Promise<EditorModule>;
  declare offers: () => readonly Offer[];
  /** Takes a new text and runs it. */
  declare edit: (text: string) => void;
  /** Why the editor could not be loaded; '' otherwise. */
  declare missing: string;

  /** The text the engine last had from here or gave to here: anything else it comes with is a change from elsewhere. */
  #known: string | null = null;
  /** Both filled by us, not by Lit: the editor takes the place of the plain text for good. */
  readonly #codePlace = Object.assign(document.createElement('div'), { className: 'code-place' });
  readonly #plainCode = Object.assign(document.createElement('pre'), {
    className: 'plain-code',
    tabIndex: 0,
  });
  #editor: CodeEditor | null = null;
  #underlined = '';
  #mounting: Promise<void> | null = null;
  #pause: ReturnType<typeof setTimeout> | undefined;
  #observer: IntersectionObserver | null = null;

  constructor() {
    super();
    this.missing = '';
    this.#codePlace.append(this.#plainCode);
    this.#plainCode.onfocus = () => void this.mount();
  }

  override connectedCallback(): void {
    super.connectedCallback();
    if (this.#editor) return;
    this.#observer = new IntersectionObserver(
      (entries) => {
        if (entries.some((entry) => entry.isIntersecting)) void idleTurn().then(() => this.mount());
      },
      { rootMargin: NEAR },
    );
    this.#observer.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#observer?.disconnect();
    this.flush();
    // Moving a cell takes it out and puts it back in one turn; only a cell that stays out is done with.
    queueMicrotask(() => {
      if (!this.isConnected) this.#editor?.destroy();
    });
  }

  /** What was typed since the last run; null for nothing. */
  get typed(): string | null {
    return this.#pause === undefined ? null : this.#editor!.text;
  }

  /** Sends what was typed since the last run, without waiting for the pause. */
  flush(): void {
    if (this.#pause === undefined) return;
    this.#send();
  }

  async goTo(line: number, column: number): Promise<void> {
    await this.mount();
    this.#editor?.goTo(line, column);
  }

  /** Puts the editor in the place of the plain text. */
  mount(): Promise<void> {
    this.#mounting ??= this.load().then(
      (module) => this.#place(module),
      (error: unknown) => {
        this.#mounting = null;
        this.missing = `The editor could not be loaded (${error instanceof Error ? error.message : error}).`;
      },
    );
    return this.#mounting;
  }

  #place(module: EditorModule): void {
    this.#observer?.disconnect();
    const wanted = this.#plainCode.contains(document.activeElement);
    this.#known = this.state.text;
    this.#editor = module.createEditor({
      text: this.state.text,
      label: `Code of ${this.state.name}`,
      offers: () => this.offers(),
      changed: () => this.#typed(),
      run: () => this.#send(),
    });
    this.#editor.dom.addEventListener('focusout', () => this.flush());
    this.#codePlace.replaceChildren(this.#editor.dom);
    this.#underline();
    if (wanted) this.#editor.focus();
  }

  #typed(): void {
    clearTimeout(this.#pause);
    this.#pause = setTimeout(() => this.#send(), RUN_AFTER_MS);
    // Whoever types without a pause runs nothing for long, but has something to keep.
    this.dispatchEvent(new CustomEvent('hour-changed', { bubbles: true }));
  }

  #send(): void {
    clearTimeout(this.#pause);
    this.#pause = undefined;
    this.#known = this.#editor!.text;
    this.edit(this.#known);
  }

  protected override shouldUpdate(changed: PropertyValues<this>): boolean {
    return changed.has('missing') || changed.has('state');
  }

  protected override render() {
    return html`${this.#codePlace}<p class="editor-hint" aria-hidden="true">Escape, then Tab, leaves the editor</p>${this.missing ? html`<p class="fault">${this.missing}</p>` : nothing}`;
  }

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (this.#editor || changed.get('state')?.text === this.state.text) return;
    this.#plainCode.replaceChildren(...plainLines(this.state.text));
    this.#plainCode.setAttribute('aria-label', `Code of ${this.state.name}`);
  }

  protected override updated(changed: PropertyValues<this>): void {
    if (!this.#editor || !changed.has('state')) return;
    if (this.state.text !== this.#known) {
      this.#known = this.state.text;
      clearTimeout(this.#pause);
      this.#pause = undefined;
      this.#editor.setText(this.state.text);
    }
    this.#underline();
  }

  /** Touches the editor only when there is something new to underline: each touch makes it measure itself. */
  #underline(): void {
    const problems = underlined(this.state);
    const seen = problems.length === 0 ? '' : JSON.stringify([this.state.text, problems]);
    // Positions count in the text that ran; while the user types on, the next run will bring its own.
    if (seen === this.#underlined || this.#editor!.text !== this.state.text) return;
    this.#underlined = seen;
    this.#editor!.setProblems(problems);
  }
}

customElements.define('hour-editor', HourEditor);
