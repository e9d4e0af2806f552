import { html, nothing, svg } from 'lit';
import type { CellState } from '../../workbook/engineTypes.ts';
import { shortName } from '../../workbook/names.ts';
import { pathThrough, readersIn } from '../graph.ts';
import { LightElement } from '../light.ts';
import { type Thread, threads } from './threads.ts';

type Cells = readonly CellState[];

/** Whether cells are alike in all that the rail shows of them. */
const sameRail = (a: Cells, b: Cells): boolean =>
  a.length === b.length &&
  a.every(
    ({ name, phase, imports }, i) =>
      name === b[i]!.name && phase === b[i]!.phase && imports.join() === b[i]!.imports.join(),
  );

const LANE_STEP = 6;
const DOT_INSET = 9;
const CORNER = 5;

/** Distance of a knot's middle from the top of its cell. */
const KNOT_DROP = 30;

/**
 * The thread rail: a knot for each cell, beside it, and lines that show which cell feeds which. The path of the
 * cell in focus is lit. Knots are buttons: arrow keys go from one to the next, Enter goes to the cell.
 */
class HourRail extends LightElement {
  static override properties = {
    // Most changes of a workbook are of what cells show, which the rail does not.
    cells: {
      attribute: false,
      hasChanged: (now: Cells, before?: Cells) => !(before && sameRail(now, before)),
    },
    jump: { attribute: false },
    focused: { state: true },
    heights: { state: true },
  };

  declare cells: Cells;
  declare jump: (cell: string) => void;
  /** The cell whose path is lit. */
  declare focused: string | null;
  /** Place of each cell's knot below the top of the rail, px; cells that are not on the page yet have none. */
  declare heights: ReadonlyMap<string, number>;
  #observer: ResizeObserver | null = null;

  constructor() {
    super();
    this.focused = null;
    this.heights = new Map();
  }

  override connectedCallback(): void {
    super.connectedCallback();
    const page = this.parentElement!;
    this.#observer = new ResizeObserver(() => this.#measure());
    this.#observer.observe(page);
    page.addEventListener('focusin', this.#onFocus);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#observer?.disconnect();
  }

  readonly #onFocus = (event: Event): void => {
    const target = event.target as HTMLElement;
    const cell = target.closest<HTMLElement>('hour-cell')?.dataset.cell ?? target.dataset.knot;
    if (cell !== undefined) this.focused = cell;
  };

  #measure(): void {
    const top = this.getBoundingClientRect().top;
    const all = [...this.parentElement!.querySelectorAll<HTMLElement>('hour-cell')];
    const heights = new Map(
      all.map((c) => [c.dataset.cell!, c.getBoundingClientRect().top - top + KNOT_DROP]),
    );
    const same =
      heights.size === this.heights.size && [...heights].every(([c, y]) => this.heights.get(c) === y);
    if (!same) this.heights = heights;
  }

  protected override updated(changed: Map<PropertyKey, unknown>): void {
    if (!changed.has('cells')) return;
    // Only a new order moves cells without changing the size of the page, which the observer sees.
    const before = changed.get('cells') as Cells | undefined;
    const order = (cells: Cells | undefined) => cells?.map((cell) => cell.name).join();
    if (order(before) !== order(this.cells)) requestAnimationFrame(() => this.#measure());
  }

  #line(thread: Thread, right: number, lit: (from: string, to: string) => boolean) {
    const x = right - (thread.lane + 1) * LANE_STEP;
    const start = this.heights.get(thread.from);
    return thread.to.map((to) => {
      const end = this.heights.get(to);
      if (start === undefined || end === undefined) return nothing;
      const down = Math.sign(end - start) * Math.min(CORNER, Math.abs(end - start) / 2);
      const path = `M${right},${start}H${x + CORNER}Q${x},${start} ${x},${start + down}V${end - down}Q${x},${end} ${x + CORNER},${end}H${right}`;
      return svg`<path class=${lit(thread.from, to) ? 'lit' : ''} d=${path}></path>`;
    });
  }

  #knot(cell: CellState, at: number, readers: readonly string[], lit: boolean) {
    const height = this.heights.get(cell.name);
    const placed = height === undefined ? 'unplaced' : '';
    const reads = cell.imports.map(shortName).join(', ') || 'nothing';
    const feeds = readers.map(shortName).join(', ') || 'nothing';
    const current = this.focused === null ? at === 0 : this.focused === cell.name;
    return html`<button type="button" class="knot ${cell.phase} ${lit ? 'lit' : ''} ${current ? 'current' : ''} ${placed}"
      data-knot=${cell.name} tabindex=${current ? 0 : -1} title=${shortName(cell.name)}
      style=${`top:${height ?? 0}px`}
      aria-label=${`${shortName(cell.name)}: reads ${reads}; feeds ${feeds}`}
      @click=${() => this.jump(cell.name)}></button>`;
  }

  readonly #onKey = (event: KeyboardEvent): void => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (step === undefined) return;
    event.preventDefault();
    const knots = [...this.querySelectorAll<HTMLButtonElement>('.knot')];
    const at = knots.indexOf(document.activeElement as HTMLButtonElement);
    knots[Math.max(0, Math.min(at + step, knots.length - 1))]?.focus();
  };

  protected override render() {
    const all = threads(this.cells);
    const readers = readersIn(this.cells);
    const lanes = Math.max(0, ...all.map((thread) => thread.lane + 1));
    const right = lanes * LANE_STEP + 4;
    const path = this.focused === null ? null : pathThrough(this.cells, this.focused);
    const inPath = (name: string, side: 'up' | 'down') =>
      name === this.focused || path?.[side].has(name) === true;
    const lit = (from: string, to: string) =>
      (inPath(from, 'up') && inPath(to, 'up')) || (inPath(from, 'down') && inPath(to, 'down'));
    const height = Math.max(0, ...this.heights.values()) + KNOT_DROP;
    return html`<nav class="rail" aria-label="Which cell feeds which" @keydown=${this.#onKey}
      style=${`--rail-width:${right + DOT_INSET}px`}>
      <svg aria-hidden="true" width=${right + DOT_INSET} height=${height}>${
        this.heights.size > 0 ? all.map((thread) => this.#line(thread, right, lit)) : nothing
      }</svg>
      ${this.cells.map((cell, i) =>
        this.#knot(cell, i, readers.get(cell.name)!, inPath(cell.name, 'up') || inPath(cell.name, 'down')),
      )}
    </nav>`;
  }
}

customElements.define('hour-rail', HourRail);
