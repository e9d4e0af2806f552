import { html, nothing } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Control } from '../view/controls.ts';
import type { CellText, Setting } from '../workbook/document.ts';
import type { CellState, Engine } from '../workbook/engineTypes.ts';
import type { LibraryName, SnapshotCell } from '../workbook/messages.ts';
import { shortName } from '../workbook/names.ts';
import type { CellActions } from './cell/actions.ts';
import type { CellTools } from './cell/cell.ts';
import { type CellKind, newCell } from './cell/templates.ts';
import { CellElements } from './cellElements.ts';
import { CellKeys } from './cellKeys.ts';
import { Contents } from './contents.ts';
import type { EditorModule } from './editor/types.ts';
import { Growth } from './growth.ts';
import { Hand } from './hand.ts';
import { Jumps } from './jumps.ts';
import { LastUndo } from './lastUndo.ts';
import { LightElement } from './light.ts';
import { newsOf, pageBar, pageEnd } from './pageParts.ts';
import { differs, firstTrouble, offersFor, placesOf } from './places.ts';
import { type Plot, PlotSource } from './results/chart.ts';
import { type OwnedControl, sameControls } from './results/result.ts';
import { snapshotsOf } from './results/snapshot.ts';
import './rail/railElement.ts';

/** How long a snapshot waits for cells that run. */
const SETTLE_MS = 3000;

/** The workbook: all cells in one column, their code beside or beneath them. */
export class WorkbookPage extends LightElement {
  static override properties = {
    engine: { attribute: false },
    shipped: { attribute: false },
    toolkitNames: { attribute: false },
    news: { state: true },
  };

  declare engine: Engine;
  /** Texts to reset to; null when there are none. */
  declare shipped: readonly CellText[] | null;
  /** What `#hourline` exports, for completion. */
  declare toolkitNames: readonly string[];
  /** Loads a library by name; set before the page is shown. */
  declare library: (name: LibraryName) => Promise<object>;
  readonly hand = new Hand();
  readonly elements = new CellElements(this);
  /** The last change of state worth saying aloud. */
  declare news: string;

  #states = new Map<string, CellState>();
  #order: string[] = [];
  #folded = new Set<string>();
  readonly #keys = new CellKeys();
  readonly #undo = new LastUndo(() => this.requestUpdate());
  readonly #growth = new Growth(() => this.requestUpdate());
  readonly #contents = new Contents();
  readonly #jumps = new Jumps(this.elements, () => {
    this.#growth.complete(this.#order.length);
    return this.updateComplete;
  });
  #awaitsRest = false;
  /** A cell that was just added: its editor gets the cursor as soon as it is there. */
  #awaited: string | null = null;

  constructor() {
    super();
    this.shipped = null;
    this.toolkitNames = [];
    this.news = '';
    this.addEventListener('keydown', (event) => this.#undo.pressed(event));
  }

  /** Something about a cell changed. */
  stateChanged(state: CellState): void {
    const before = this.#states.get(state.name);
    this.#states.set(state.name, state);
    this.news = newsOf(before, state) ?? this.news;
    if (before && !sameControls(before.controls, state.controls)) {
      for (const cell of this.elements.all) cell.otherChanged(state.name);
    }
    const cell = this.elements.of(state.name);
    if (cell) cell.state = state;
    this.#updateAtRest();
  }

  /** What the page says of its cells waits until the hand rests; the cells themselves follow it. */
  #updateAtRest(): void {
    const rests = this.hand.rests();
    if (!rests) this.requestUpdate();
    else if (!this.#awaitsRest) {
      this.#awaitsRest = true;
      void rests.then(() => {
        this.#awaitsRest = false;
        this.requestUpdate();
      });
    }
  }

  /** Cells came, went, moved or were renamed. */
  cellsChanged(cells: readonly CellText[]): void {
    this.#order = cells.map((cell) => cell.name);
    this.#states = new Map(this.engine.states().map((state) => [state.name, state]));
    this.#keys.keep((name) => this.#states.has(name));
    this.requestUpdate();
  }

  /** Every cell's result as static HTML. */
  async snapshot(): Promise<SnapshotCell[]> {
    this.elements.flush();
    // A workbook that was opened without running, or a cell that takes long, is shown as it stands.
    await Promise.race([this.engine.run(), new Promise((done) => setTimeout(done, SETTLE_MS))]);
    const plot = await this.#tools.plot.load();
    return snapshotsOf(this.engine.states(), plot, this.#tools.ownerOf);
  }

  /** Back to the shipped texts, all cells and controls; can be undone. */
  async reset(): Promise<void> {
    if (!this.shipped) return;
    this.elements.flush();
    const cells = this.engine.cells().map((cell) => ({ ...cell }));
    const settings = this.engine.settings();
    await this.#replace(this.shipped, {});
    this.#undo.offer({
      what: 'The workbook was reset, and with it what was entered.',
      back: () => this.#replace(cells, settings),
    });
  }

  async #replace(cells: readonly CellText[], settings: Record<string, Setting>): Promise<void> {
    this.engine.load(cells, settings);
    this.cellsChanged(cells);
    this.#changed();
    await this.engine.run();
  }

  readonly #actions: CellActions = {
    edit: (cell, text) => void this.#saving(this.engine.edit(cell, text)),
    rename: (cell, to) => this.#rename(cell, to),
    move: (cell, by) => this.#move(cell, by),
    reset: (cell) => {
      const original = this.shipped?.find((one) => one.name === cell);
      if (original) void this.#saving(this.engine.edit(cell, original.text));
    },
    remove: (cell) => void this.#remove(cell),
    addBelow: (cell, kind) => void this.#add(kind, this.#order.indexOf(cell) + 1),
    fold: (cell, folded) => this.#fold([cell], folded),
    jump: (cell) => void this.#jumps.to(cell),
    toContents: () => this.querySelector<HTMLElement>('.contents summary')?.focus(),
  };

  readonly #tools: CellTools = {
    actions: this.#actions,
    hand: this.hand,
    plot: new PlotSource(() => this.library('plot') as Promise<Plot>),
    loadEditor: () => this.library('editor') as Promise<EditorModule>,
    ownerOf: (control) => this.#ownerOf(control),
    offerUndo: (undo) => this.#undo.offer(undo),
    setControl: (cell, control, value) => {
      this.#undo.controlMoved();
      this.hand.moves();
      return this.#saving(this.engine.setControl(cell, control, value));
    },
    offersFor: (cell) => offersFor(cell, [...this.#states.values()], this.toolkitNames),
  };

  #changed(): void {
    this.dispatchEvent(new CustomEvent('hour-changed', { bubbles: true }));
  }

  /** There is something to save as soon as the engine has taken the change, not only when it has run. */
  #saving(run: Promise<void>): Promise<void> {
    this.#changed();
    return run;
  }

  async #rename(from: string, to: string): Promise<void> {
    this.elements.flush();
    this.#keys.share(from, to);
    if (this.#folded.has(from)) this.#folded.add(to);
    try {
      await this.#saving(this.engine.rename(from, to));
    } catch (error) {
      if (!this.#order.includes(to)) this.#keys.forget(to);
      throw error;
    }
  }

  #move(cell: string, by: 1 | -1): void {
    const to = this.#order.indexOf(cell) + by;
    if (to < 0 || to >= this.#order.length) return;
    this.engine.move(cell, to);
    this.#changed();
    this.news = `${shortName(cell)} is now at place ${to + 1} of ${this.#order.length}`;
    void this.updateComplete.then(() => this.#jumps.to(cell));
  }

  async #remove(cell: string): Promise<void> {
    this.elements.flush();
    const at = this.#order.indexOf(cell);
    const { text } = this.engine.state(cell);
    const moved = Object.entries(this.engine.settings()).filter(([place]) => place.startsWith(`${cell}#`));
    const back = async () => {
      await this.#saving(this.engine.add(cell, text, at));
      for (const [place, { value }] of moved) {
        await this.engine.setControl(cell, place.slice(cell.length + 1), value);
      }
      await this.#jumps.to(cell);
    };
    const next = this.#order[at + 1];
    const neighbour = next ?? this.#order[at - 1];
    const top = this.elements.topOf(next ? cell : neighbour);
    void this.#saving(this.engine.remove(cell));
    this.#undo.offer({ what: `${shortName(cell)} was deleted.`, back });
    if (!neighbour) return;
    await this.updateComplete;
    await Promise.all(this.elements.all.map((one) => one.updateComplete));
    // Cells above lose their mention of the deleted one; what the reader looks at stays where it is all the same.
    scrollBy({ top: this.elements.topOf(neighbour) - top, behavior: 'instant' });
    await this.#jumps.to(neighbour);
  }

  async #add(kind: CellKind, at: number): Promise<void> {
    const { name, text } = newCell(kind, this.#order);
    this.#awaited = name;
    await this.#saving(this.engine.add(name, text, at));
  }

  #fold(cells: readonly string[], folded: boolean): void {
    for (const cell of cells) {
      if (folded) this.#folded.add(cell);
      else this.#folded.delete(cell);
    }
    this.requestUpdate();
  }

  /** Leads to the first cell that failed or waits. */
  async showTrouble(): Promise<void> {
    const cell = firstTrouble(this.engine.states());
    if (cell) await this.#jumps.answer(cell);
  }

  /** A link in the text of a cell leads to another one. */
  readonly #see = async (event: CustomEvent<string>): Promise<void> => {
    const isThere = await this.#jumps.follow(event.target as HTMLElement, event.detail);
    if (!isThere) this.news = `There is no cell ${shortName(event.detail)} in this workbook`;
  };

  #ownerOf(control: Control): OwnedControl | null {
    const owner = this.engine.ownerOf(control);
    const entry = owner && this.#states.get(owner.cell)?.controls.find((one) => one.name === owner.name);
    return owner && entry ? { cell: owner.cell, entry } : null;
  }

  #bar(states: readonly CellState[]) {
    const allFolded = states.every((state) => this.#folded.has(state.name));
    return pageBar(
      allFolded,
      () => this.#fold(this.#order, !allFolded),
      this.shipped && { able: differs(this.engine, this.shipped), act: () => void this.reset() },
    );
  }

  protected override willUpdate(changed: Map<PropertyKey, unknown>): void {
    if (changed.has('engine') && this.engine) this.cellsChanged(this.engine.cells());
  }

  protected override updated(): void {
    void this.#growth.goOn(() => this.#order.length);
    const added = this.#awaited === null ? undefined : this.elements.of(this.#awaited);
    if (!added) return;
    this.#awaited = null;
    void added.startWriting();
  }

  protected override render() {
    if (!this.engine) return nothing;
    const states = this.#order.map((name) => this.#states.get(name)).filter((state) => state !== undefined);
    const places = placesOf(states, this.#folded, this.shipped);
    return html`<div class="page">
      <hour-rail .cells=${states} .jump=${this.#actions.jump}></hour-rail>
      <div class="cells" @hour-see=${this.#see}>
        ${this.#bar(states)}
        ${this.#contents.list(states, this.#actions.jump)}
        ${repeat(
          states.slice(0, this.#growth.placed),
          (state) => this.#keys.of(state.name),
          (state, index) => html`<hour-cell data-cell=${state.name} .state=${state}
            .place=${places[index]!} .tools=${this.#tools}></hour-cell>`,
        )}
        ${pageEnd((kind) => void this.#add(kind, this.#order.length))}
      </div>
      ${this.#undo.line()}
      <div class="hidden-text" role="status">${this.news}</div>
    </div>`;
  }
}

customElements.define('hour-page', WorkbookPage);
