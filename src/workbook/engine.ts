import { InputError } from '../base/inputError.ts';
import { blockOf, type Surroundings } from './blocks.ts';
import { Controls } from './controls.ts';
import type { CellText, Setting } from './document.ts';
import type { CellState, Engine, EngineOptions } from './engineTypes.ts';
import { faultProblem } from './faults.ts';
import { circles, downstreamOf, runOrder, type Uses } from './graph.ts';
import { gatherInputs, unchanged } from './inputs.ts';
import { Libraries } from './libraries.ts';
import { checkNewName, isCellPath } from './names.ts';
import { type CellRecord, newRecord, type Run, readText, stateOf, usedCells } from './record.ts';
import { renameImports } from './renameImports.ts';
import { beginRun, callCell, land, landValues, stopRun } from './runs.ts';

export function createEngine(options: EngineOptions): Engine {
  // A fault deep inside the toolkit must still show the line of the cell that called it; ten frames are too few.
  Error.stackTraceLimit = Math.max(Error.stackTraceLimit ?? 0, 50);
  return new WorkbookEngine(options);
}

/**
 * The scheduler. A change marks the changed cell and all its downstream as due and drops their runs in progress;
 * then, one microtask later, so that changes made together are one batch, the cells are taken in order: a due cell
 * whose upstream is settled is either blocked, found unchanged, or run. Cells without a top-level await run to
 * their end in that one pass; each run that ends later makes another pass.
 */
class WorkbookEngine implements Engine {
  readonly #options: EngineOptions;
  readonly #libraries: Libraries;
  #cells = new Map<string, CellRecord>();
  #controls = new Controls();
  #uses: Uses = new Map();
  #order: CellRecord[] = [];
  #circles: ReadonlyMap<string, readonly string[]> = new Map();
  /** Nothing runs before the first run(). */
  #started = false;
  #disposed = false;
  /** A text changed since the page last saved. */
  #unsaved = false;
  #saving = false;
  #scheduled = false;
  #waiters: (() => void)[] = [];
  /** Cells whose state may have changed since the page was told. */
  #touched = new Set<CellRecord>();

  constructor(options: EngineOptions) {
    this.#options = options;
    this.#libraries = new Libraries(options.libraries);
  }

  load(cells: readonly CellText[], settings: Record<string, Setting> = {}): void {
    const names = new Set<string>();
    for (const { name } of cells) {
      checkNewName(name, names);
      names.add(name);
    }
    for (const record of this.#cells.values()) stopRun(record);
    this.#cells = new Map(cells.map(({ name, text }) => [name, newRecord(name, text)]));
    this.#controls = new Controls(settings);
    this.#started = false;
    this.#unsaved = false;
    this.#rewire();
    this.#touched = new Set(this.#cells.values());
    this.#tell();
    this.#finishIfQuiet();
  }

  run(): Promise<void> {
    this.#started = true;
    for (const record of this.#cells.values()) if (!record.ended && !record.block) this.#mark(record);
    return this.#schedule();
  }

  async edit(name: string, text: string): Promise<void> {
    const record = this.#record(name);
    if (record.text !== text) {
      Object.assign(record, readText(text));
      this.#rewire();
      this.#mark(record);
      this.#markDownstream([name]);
      this.#unsaved = true;
    }
    return this.#schedule();
  }

  async add(name: string, text: string, at = this.#cells.size): Promise<void> {
    checkNewName(name, this.#cells.keys());
    const records = [...this.#cells.values()];
    const record = newRecord(name, text);
    this.#setCells([...records.slice(0, at), record, ...records.slice(at)]);
    this.#mark(record);
    this.#markDownstream([name]);
    this.#cellsChanged();
    return this.#schedule();
  }

  async remove(name: string): Promise<void> {
    const record = this.#record(name);
    this.#markDownstream([name]);
    stopRun(record);
    for (const slot of record.slots) this.#controls.forget(slot);
    this.#touched.delete(record);
    this.#setCells([...this.#cells.values()].filter((r) => r !== record));
    this.#cellsChanged();
    return this.#schedule();
  }

  async rename(from: string, to: string): Promise<void> {
    const record = this.#record(from);
    if (from === to) return;
    checkNewName(
      to,
      [...this.#cells.keys()].filter((n) => n !== from),
    );
    for (const reader of this.#cells.values()) this.#rewriteReader(reader, from, to);
    record.name = to;
    record.compiled = null;
    this.#controls.rename(from, to);
    this.#touched.add(record);
    this.#setCells([...this.#cells.values()]);
    // Nobody sees other values than before, so only what was blocked has to be looked at again.
    const affected = [record, ...this.#records(downstreamOf(this.#uses, [from, to]))];
    for (const cell of affected) if (cell.block) this.#mark(cell);
    this.#cellsChanged();
    return this.#schedule();
  }

  /** The run that the reader has behind it stays good: the new text means the same. */
  #rewriteReader(reader: CellRecord, from: string, to: string): void {
    const text = renameImports(reader.text, from, to);
    if (text === reader.text) return;
    Object.assign(reader, { ...readText(text), inputs: reader.inputs });
    this.#touched.add(reader);
  }

  move(name: string, to: number): void {
    const record = this.#record(name);
    const others = [...this.#cells.values()].filter((r) => r !== record);
    this.#setCells([...others.slice(0, to), record, ...others.slice(to)]);
    this.#options.onCells?.(this.cells());
  }

  async setControl(cell: string, control: string, value: unknown): Promise<void> {
    const record = this.#record(cell);
    const slot = this.#controls.slot(cell, control);
    if (!slot) throw new InputError(`${cell} has no control called '${control}'.`, { field: control });
    if (!this.#controls.move(slot, value)) return;
    this.#touched.add(record);
    const readers = [...this.#cells.values()].filter((r) => (r.running ?? r).reads.has(slot));
    for (const reader of readers) this.#mark(reader);
    this.#markDownstream(readers.map((r) => r.name));
    this.#options.onSetting?.(cell, control);
    return this.#schedule();
  }

  ownerOf(control: object): { cell: string; name: string } | null {
    const slot = this.#controls.slotOf(control);
    return slot ? { cell: slot.cell, name: slot.name } : null;
  }

  settings(): Record<string, Setting> {
    return this.#controls.settings(new Set(this.#cells.keys()));
  }

  cells(): readonly CellText[] {
    return [...this.#cells.values()].map(({ name, text }) => ({ name, text }));
  }

  state(name: string): CellState {
    return stateOf(this.#record(name));
  }

  states(): readonly CellState[] {
    return [...this.#cells.values()].map(stateOf);
  }

  downstream(name: string): string[] {
    const found = downstreamOf(this.#uses, [name]);
    return [...this.#cells.keys()].filter((n) => n !== name && found.has(n));
  }

  dispose(): void {
    this.#disposed = true;
    for (const record of this.#cells.values()) stopRun(record);
    this.#finish();
  }

  #record(name: string): CellRecord {
    const record = this.#cells.get(name);
    if (!record) throw new InputError(`There is no cell called '${name}'.`, { field: 'name' });
    return record;
  }

  #records(names: Iterable<string>): CellRecord[] {
    return [...names].flatMap((name) => this.#cells.get(name) ?? []);
  }

  #setCells(records: CellRecord[]): void {
    this.#cells = new Map(records.map((r) => [r.name, r]));
    this.#rewire();
  }

  #rewire(): void {
    this.#uses = new Map([...this.#cells.values()].map((r) => [r.name, usedCells(r)]));
    this.#order = this.#records(runOrder(this.#uses));
    this.#circles = circles(this.#uses);
  }

  #cellsChanged(): void {
    this.#unsaved = true;
    this.#options.onCells?.(this.cells());
  }

  /** Due, and a run in progress dropped: it saw what no longer holds. */
  #mark(record: CellRecord): void {
    record.due = true;
    if (record.running) stopRun(record);
    this.#touched.add(record);
  }

  #markDownstream(names: readonly string[]): void {
    for (const record of this.#records(downstreamOf(this.#uses, names))) this.#mark(record);
  }

  /** Resolves when nothing is left to run. */
  #schedule(): Promise<void> {
    if (!this.#scheduled) {
      this.#scheduled = true;
      void Promise.resolve().then(() => this.#turn());
    }
    return new Promise((resolve) => this.#waiters.push(resolve));
  }

  async #turn(): Promise<void> {
    this.#scheduled = false;
    if (this.#saving) return; // the turn that saves goes on to the pass
    while (this.#started && this.#unsaved) await this.#save();
    this.#pass();
  }

  async #save(): Promise<void> {
    this.#unsaved = false;
    if (!this.#options.beforeRun) return;
    this.#saving = true;
    this.#tell();
    try {
      await this.#options.beforeRun();
    } catch {
      // The page that could not save says so itself; the workbook must not stand still for it.
    }
    this.#saving = false;
  }

  /** Takes every cell that can be taken now. The order is topological, so one pass is enough. */
  #pass(): void {
    if (this.#disposed || this.#saving) return;
    if (this.#started)
      for (const record of this.#order) if (record.due && this.#isReady(record)) this.#take(record);
    this.#tell();
    this.#finishIfQuiet();
  }

  /** Members of a circle wait for nobody: they are told so at once. */
  #isReady(record: CellRecord): boolean {
    if (this.#circles.has(record.name) || record.rewritten.problem) return true;
    return this.#records(this.#uses.get(record.name)!).every((used) => !used.due && !used.running);
  }

  #take(record: CellRecord): void {
    if (!record.rewritten.problem && !this.#librariesReady(record)) return;
    record.due = false;
    this.#touched.add(record);
    record.block = blockOf(record, this.#surroundings());
    if (record.block) return;
    const inputs = gatherInputs(record, {
      cells: this.#cells,
      libraries: this.#libraries.loaded,
      controls: this.#controls,
    });
    if (!unchanged(record, inputs)) this.#start(record, beginRun(record, inputs, this.#now()));
  }

  /** Asks for libraries that are not there yet; the cell stays due until they are. */
  #librariesReady(record: CellRecord): boolean {
    const names = record.parsed.imports.map((i) => i.from).filter((from) => !isCellPath(from));
    const pending = names.flatMap((name) => this.#libraries.request(name) ?? []);
    for (const loading of pending) void loading.then(() => this.#pass());
    return pending.length === 0;
  }

  #surroundings(): Surroundings {
    return {
      cells: this.#cells,
      libraryNames: this.#libraries.names,
      libraries: this.#libraries.loaded,
      missingLibraries: this.#libraries.missing,
      circles: this.#circles,
    };
  }

  #start(record: CellRecord, run: Run): void {
    const fail = (fault: unknown) => this.#fail(record, run, fault);
    const finish = (exported: unknown[]) => this.#guard(() => this.#succeed(record, run, exported), fail);
    this.#guard(() => {
      const exported = callCell(record, run, this.#controls, (from) => this.#libraries.dynamic(from));
      if (!record.rewritten.asynchronous) finish(exported as unknown[]);
      else void (exported as Promise<unknown[]>).then(finish, fail).then(() => this.#pass());
    }, fail);
  }

  #guard(act: () => void, fail: (fault: unknown) => void): void {
    try {
      act();
    } catch (fault) {
      fail(fault);
    }
  }

  /** A run that was dropped meanwhile comes to nothing. */
  #succeed(record: CellRecord, run: Run, exported: unknown[]): void {
    if (record.running !== run) return;
    record.milliseconds = this.#now() - run.started;
    landValues(record, run, exported, this.#controls);
    this.#touched.add(record);
  }

  #fail(record: CellRecord, run: Run, fault: unknown): void {
    if (record.running !== run) return;
    record.milliseconds = this.#now() - run.started;
    record.problem = faultProblem(fault, record, run.compiled, {
      cells: this.#cells,
      libraries: this.#libraries.loaded,
    });
    land(record, run, 'failed');
    this.#touched.add(record);
  }

  #now(): number {
    return this.#options.now?.() ?? 0;
  }

  /** Tells the page each state that is not as it was told last. */
  #tell(): void {
    const touched = [...this.#touched];
    this.#touched.clear();
    for (const record of touched) {
      const before = record.told;
      record.told = stateOf(record);
      if (record.told !== before) this.#tellOne(record.told);
    }
  }

  /** A page that throws has a fault of its own: it is reported as any uncaught one, and the workbook lives on. */
  #tellOne(state: CellState): void {
    try {
      this.#options.onState(state);
    } catch (fault) {
      queueMicrotask(() => {
        throw fault;
      });
    }
  }

  #finishIfQuiet(): void {
    const busy =
      this.#saving ||
      this.#scheduled ||
      [...this.#cells.values()].some((r) => r.running || (this.#started && r.due));
    if (!busy) this.#finish();
  }

  #finish(): void {
    for (const resolve of this.#waiters.splice(0)) resolve();
  }
}
