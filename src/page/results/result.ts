import { html, nothing, type PropertyValues } from 'lit';
import { type Control, isControl } from '../../view/controls.ts';
import { type Handle, isView } from '../../view/view.ts';
import type { CellState } from '../../workbook/engineTypes.ts';
import { type ControlEntry, liveControl, staticControl } from '../controls/controlView.ts';
import type { Hand } from '../hand.ts';
import type { Undo } from '../lastUndo.ts';
import { LightElement } from '../light.ts';
import type { PlotSource } from './chart.ts';
import type { DragTools } from './dragging.ts';
import { idleTurn } from './idleTurn.ts';
import { plain } from './inspect.ts';
import { partsOf } from './partsOf.ts';
import { type Drawing, showable } from './showable.ts';
import './job.ts';

/** Exported controls that what the cell shows does not place itself; for these the page finds a place. */
export function unplacedControls(state: CellState): ControlEntry[] {
  const placed = new Set([...partsOf(state.shown)].filter(isControl));
  return state.controls.filter((entry) => !placed.has(entry.control));
}

const isProse = (value: unknown): boolean =>
  typeof value === 'string' || (isView(value) && value.view === 'prose');

/** What a cell shows, cut after the prose it opens with: there the controls go that it does not place itself. */
export function opening(shown: unknown): { opening: unknown; rest: unknown } {
  if (isProse(shown)) return { opening: shown, rest: null };
  if (Array.isArray(shown) && isProse(shown[0])) return { opening: shown[0], rest: shown.slice(1) };
  return { opening: null, rest: shown };
}

/** Whether the same controls have the same values. */
export const sameControls = (a: readonly ControlEntry[], b: readonly ControlEntry[]): boolean =>
  a.length === b.length &&
  a.every((entry, i) => entry.control === b[i]!.control && Object.is(entry.value, b[i]!.value));

/** A control wherever it stands: the cell that exports it and its entry there. */
export interface OwnedControl {
  cell: string;
  entry: ControlEntry;
}

/** How results reach beyond their own cell. */
export interface ResultTools {
  hand: Hand;
  plot: PlotSource;
  ownerOf(control: Control): OwnedControl | null;
  setControl(cell: string, control: string, value: unknown): Promise<void>;
  /** Offers to take back what was just done. */
  offerUndo(undo: Undo): void;
}

/** Results within this distance of what is visible are drawn at once. */
const NEAR = '100px 0px';

/**
 * What one cell shows, live: its controls, then its views. Away from what is visible a newer result waits until the hand
 * rests and the page is idle, or the reader comes near, so that what the reader looks at follows a control without delay.
 */
export class HourResult extends LightElement {
  static override properties = { state: { attribute: false }, tools: { attribute: false } };

  declare state: CellState;
  declare tools: ResultTools;
  /** Cells whose controls are shown here. */
  readonly owners = new Set<string>();
  #stale = true;
  /** Whether it is, or is nearly, visible; null until that is known. */
  #near: boolean | null = null;
  /** Whether a result stands here already: a first one is not kept waiting, so that the page fills as cells run. */
  #shows = false;
  /** Ends the wait of an update away from what is visible. */
  #hurry: () => void = () => {};
  #observer: IntersectionObserver | null = null;

  /** Whether it is known to be visible, or nearly. */
  get inSight(): boolean {
    return this.#near === true;
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.#observer = new IntersectionObserver(
      (entries) => {
        this.#near = entries.at(-1)!.isIntersecting;
        if (this.#near) this.#hurry();
      },
      { rootMargin: NEAR },
    );
    this.#observer.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#observer?.disconnect();
  }

  protected override async scheduleUpdate(): Promise<void> {
    if (this.#shows && this.#near === false) {
      const turn = (this.tools.hand.rests() ?? Promise.resolve()).then(idleTurn);
      await Promise.race([turn, new Promise<void>((resolve) => (this.#hurry = resolve))]);
    }
    super.scheduleUpdate();
  }

  readonly #drag: DragTools = {
    move: (handle, value) => void this.#set(handle, handle.moved(value)),
    offerUndo: (handle, before, after) => {
      const what = `${plain(handle.label)} was moved from ${before} to ${after} ${plain(handle.unit)}.`;
      this.tools.offerUndo({ what, isMove: true, back: () => this.#set(handle, handle.moved(before)) });
    },
  };

  /** Nothing happens for a control that no cell exports. */
  async #set({ control }: Handle, value: unknown): Promise<void> {
    const owner = this.tools.ownerOf(control);
    if (owner) await this.tools.setControl(owner.cell, owner.entry.name, value);
  }

  readonly #drawing: Drawing = {
    job: (view) => html`<hour-job .view=${view} .drawing=${this.#drawing}></hour-job>`,
    chart: (view) =>
      html`<hour-chart .view=${view} .source=${this.tools.plot} .drag=${this.#drag}
        .hand=${this.tools.hand}></hour-chart>`,
    control: (control) => {
      const owner = this.tools.ownerOf(control);
      if (owner === null) return staticControl(control, control.value);
      this.owners.add(owner.cell);
      return this.#live(owner.cell, owner.entry);
    },
  };

  #live(cell: string, entry: ControlEntry): unknown {
    return liveControl(entry, (control, value) => this.tools.setControl(cell, control, value));
  }

  /** Draws again, though the state is the same. */
  redraw(): void {
    this.#stale = true;
    this.requestUpdate();
  }

  /** A cell that starts or fails keeps showing what it showed: nothing is drawn again for that. */
  protected override shouldUpdate(changed: PropertyValues<this>): boolean {
    const before = changed.get('state');
    if (this.#stale || before === undefined) return true;
    return before.shown !== this.state.shown || !sameControls(before.controls, this.state.controls);
  }

  protected override render() {
    this.#stale = false;
    this.#shows = this.state.shown !== undefined;
    this.owners.clear();
    const controls = unplacedControls(this.state).map((entry) => this.#live(this.state.name, entry));
    const parts = controls.length > 0 ? opening(this.state.shown) : { opening: null, rest: this.state.shown };
    return html`<div class="result">
      ${showable(parts.opening, this.#drawing)}
      ${controls.length > 0 ? html`<div class="controls">${controls}</div>` : nothing}
      <div>${showable(parts.rest, this.#drawing)}</div>
    </div>`;
  }
}

customElements.define('hour-result', HourResult);
