import { html, nothing } from 'lit';
import type { CellPhase, CellState } from '../../workbook/engineTypes.ts';
import { shortName } from '../../workbook/names.ts';
import type { HourEditor } from '../editor/editorElement.ts';
import type { EditorModule, Offer } from '../editor/types.ts';
import { LightElement } from '../light.ts';
import { showsEarlier, troubleOf } from '../results/earlier.ts';
import type { HourResult, ResultTools } from '../results/result.ts';
import type { CellActions, CellPlace } from './actions.ts';
import type { HourCellName } from './cellName.ts';
import type { MenuItem } from './menu.ts';
import { problemCards } from './problems.ts';
import '../editor/editorElement.ts';
import '../results/result.ts';
import './cellName.ts';
import './menu.ts';

/** A finished cell needs no mark. */
const PHASE_WORD: Record<CellPhase, string> = {
  idle: 'not run yet',
  stale: 'changed, not run yet',
  running: 'running',
  done: '',
  failed: 'failed',
  waiting: 'waiting',
};

/** Code of this many lines fits on most screens. */
const SHORT_LINES = 24;

/** What all cells of a page share. */
export interface CellTools extends ResultTools {
  actions: CellActions;
  loadEditor(): Promise<EditorModule>;
  offersFor(cell: string): readonly Offer[];
}

/** One cell: what it shows, and beside or beneath it the line with its name, its code and what is wrong with it. */
export class HourCell extends LightElement {
  static override properties = {
    state: { attribute: false },
    place: {
      attribute: false,
      hasChanged: (place: CellPlace, old?: CellPlace) => JSON.stringify(place) !== JSON.stringify(old),
    },
    tools: { attribute: false },
  };

  declare state: CellState;
  declare place: CellPlace;
  declare tools: CellTools;

  /** Null until it is rendered. */
  get #editor(): HourEditor | null {
    return this.querySelector<HourEditor>('hour-editor');
  }

  /** Sends what was typed but has not run yet. */
  flush(): void {
    this.#editor?.flush();
  }

  /** What was typed but has not run yet; null for nothing. */
  get typed(): string | null {
    return this.#editor?.typed ?? null;
  }

  /** Puts the cursor into the code, e.g. of a cell that was just added. */
  async startWriting(): Promise<void> {
    await this.updateComplete;
    await this.#goTo(1, 1);
  }

  /** Whether its result is known to be visible, or nearly. */
  get inSight(): boolean {
    return this.querySelector<HourResult>('hour-result')?.inSight ?? false;
  }

  /** Another cell changed: draws again the controls of that cell that are shown here. */
  otherChanged(cell: string): void {
    const result = this.querySelector<HourResult>('hour-result');
    if (result?.owners.has(cell)) result.redraw();
  }

  readonly #goTo = async (line: number, column: number): Promise<void> => {
    if (this.place.folded) {
      this.tools.actions.fold(this.state.name, false);
      await this.updateComplete;
    }
    await this.#editor!.goTo(line, column);
  };

  #menu(): MenuItem[] {
    const { actions } = this.tools;
    const { name } = this.state;
    return [
      { label: 'Rename', act: () => void this.querySelector<HourCellName>('hour-cell-name')!.start() },
      { label: 'Move up', act: () => actions.move(name, -1), able: !this.place.first },
      { label: 'Move down', act: () => actions.move(name, 1), able: !this.place.last },
      { label: 'Add code below', act: () => actions.addBelow(name, 'code') },
      { label: 'Add prose below', act: () => actions.addBelow(name, 'prose') },
      { label: 'Reset to the original text', act: () => actions.reset(name), able: this.place.changed },
      { label: 'Delete', act: () => actions.remove(name) },
      { label: 'To the contents', act: () => actions.toContents() },
    ];
  }

  #line() {
    const { name, phase } = this.state;
    const { folded, changed } = this.place;
    const { actions } = this.tools;
    const toggle = folded ? 'Show code' : 'Fold code';
    return html`<div class="cell-line">
      <hour-cell-name .name=${name} .rename=${(to: string) => actions.rename(name, to)}></hour-cell-name>
      <span class="phase ${phase}">${PHASE_WORD[phase]}</span>
      ${changed ? html`<span class="changed" title="Differs from the original text">edited</span>` : nothing}
      <span class="cell-buttons">
        <button type="button" class="quiet" aria-expanded=${!folded} aria-label=${`${toggle} of ${shortName(name)}`}
          @click=${() => actions.fold(name, !folded)}>${toggle}</button>
        <hour-menu .label=${`Actions for ${shortName(name)}`} .items=${this.#menu()}></hour-menu>
      </span>
    </div>`;
  }

  #jump(cell: string) {
    return html`<button type="button" class="place"
      @click=${() => this.tools.actions.jump(cell)}>${shortName(cell)}</button>`;
  }

  /** Stands above a result that is not of the present code, so that nobody takes it for one. */
  #earlierNote() {
    const { waitsFor } = this.place;
    const trouble = waitsFor
      ? html`This cell waits for ${this.#jump(waitsFor)}.`
      : troubleOf(this.state, null);
    return html`<p class="earlier-note"><strong>Earlier result.</strong> ${trouble}</p>`;
  }

  /** Stands for the result while the reader has yet to enter something. */
  #request() {
    return html`<p class="request">${troubleOf(this.state, null)}</p>`;
  }

  #threads() {
    const { reads, feeds } = this.place;
    const jump = (cell: string) => this.#jump(cell);
    if (reads.length + feeds.length === 0) return nothing;
    return html`<div class="threads">
      ${reads.length > 0 ? html`<span>reads ${reads.map(jump)}</span>` : nothing}
      ${feeds.length > 0 ? html`<span>feeds ${feeds.map(jump)}</span>` : nothing}
    </div>`;
  }

  protected override render() {
    const { state, place, tools } = this;
    const { name } = state;
    const earlier = showsEarlier(state);
    return html`<section class="cell ${place.folded ? 'folded' : ''}" aria-label=${`Cell ${shortName(name)}`} tabindex="-1">
      <div class="shown ${earlier ? 'earlier' : ''}">
        ${earlier ? this.#earlierNote() : nothing}
        ${state.phase === 'waiting' && state.problem?.notYet ? this.#request() : nothing}
        <hour-result .state=${state} .tools=${tools}></hour-result>
      </div>
      <div class="work ${state.text.split('\n').length <= SHORT_LINES ? 'short' : ''}">
        ${this.#line()}
        <hour-editor ?hidden=${place.folded} .state=${state} .load=${tools.loadEditor}
          .offers=${() => tools.offersFor(name)}
          .edit=${(text: string) => tools.actions.edit(name, text)}></hour-editor>
        ${problemCards(state, place, (line, column) => void this.#goTo(line, column), tools.actions.jump)}
        ${place.folded ? nothing : this.#threads()}
      </div>
    </section>`;
  }
}

customElements.define('hour-cell', HourCell);
