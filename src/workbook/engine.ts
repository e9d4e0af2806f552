import { InputError } from '../base/inputError.ts';
import { CellList } from './cellList.ts';
import { Controls } from './controls.ts';
import type { CellText, Setting } from './document.ts';
import type { CellPhase, CellState, Engine, EngineOptions } from './engineTypes.ts';
import { checkNewName } from './names.ts';
import { type CellRecord, newRecord, phaseOf, readText, stateOf } from './record.ts';
import { renameImports } from './renameImports.ts';
import { stopRun } from './runs.ts';
import { Scheduler } from './scheduler.ts';

/** An engine without cells: `load` gives it some, `run` runs them. */
export function createEngine(options: EngineOptions): Engine {
  // A fault deep inside the toolkit must still show the line of the cell that called it; ten frames are too few.
  Error.stackTraceLimit = Math.max(Error.stackTraceLimit ?? 0, 50);
  return new WorkbookEngine(options);
}

/** What can be done to a workbook; the scheduler decides what has to run for it. */
class WorkbookEngine implements Engine {
  readonly #options: EngineOptions;
  readonly #cells = new CellList();
  readonly #scheduler: Scheduler;

  constructor(options: EngineOptions) {
    this.#options = options;
    this.#scheduler = new Scheduler(this.#cells, options);
  }

  load(cells: readonly CellText[], settings: Record<string, Setting> = {}): void {
    const names = new Set<string>();
    for (const { name } of cells) {
      checkNewName(name, names);
      names.add(name);
    }
    for (const record of this.#cells.all) stopRun(record);
    this.#cells.replace(cells.map(({ name, text }) => newRecord(name, text, this.#options.read)));
    this.#scheduler.reset(new Controls(settings));
  }

  run(): Promise<void> {
    this.#scheduler.start();
    return this.#scheduler.schedule();
  }

  async edit(name: string, text: string): Promise<void> {
    if (this.#options.beforeRead) await this.#options.beforeRead();
    const record = this.#cells.get(name);
    if (record.text !== text) {
      Object.assign(record, readText(text, this.#options.read));
      this.#cells.rewire();
      this.#scheduler.mark(record);
      this.#scheduler.markDownstream([name]);
      this.#scheduler.unsaved = true;
    }
    return this.#scheduler.schedule();
  }

  async add(name: string, text: string, at = this.#cells.all.length): Promise<void> {
    if (this.#options.beforeRead) await this.#options.beforeRead();
    checkNewName(name, this.#cells.names);
    const records = this.#cells.all;
    const record = newRecord(name, text, this.#options.read);
    this.#cells.replace([...records.slice(0, at), record, ...records.slice(at)]);
    this.#scheduler.mark(record);
    this.#scheduler.markDownstream([name]);
    this.#cellsChanged();
    return this.#scheduler.schedule();
  }

  async remove(name: string): Promise<void> {
    const record = this.#cells.get(name);
    this.#scheduler.markDownstream([name]);
    this.#scheduler.forget(record);
    this.#cells.replace(this.#cells.all.filter((r) => r !== record));
    this.#cellsChanged();
    return this.#scheduler.schedule();
  }

  async rename(from: string, to: string): Promise<void> {
    if (this.#options.beforeRead) await this.#options.beforeRead();
    const record = this.#cells.get(from);
    if (from === to) return;
    const others = this.#cells.names.filter((name) => name !== from);
    checkNewName(to, others);
    for (const reader of this.#cells.all) this.#rewriteReader(reader, from, to);
    record.name = to;
    record.compiled = null;
    this.#scheduler.controls.rename(from, to);
    this.#scheduler.touch(record);
    this.#cells.replace(this.#cells.all);
    // Nobody sees other values than before, so only what was blocked has to be looked at again.
    const affected = [record, ...this.#cells.downstream([from, to])];
    for (const cell of affected) if (cell.block) this.#scheduler.mark(cell);
    this.#cellsChanged();
    return this.#scheduler.schedule();
  }

  /** The run that the reader has behind it stays good: the new text means the same. */
  #rewriteReader(reader: CellRecord, from: string, to: string): void {
    const text = renameImports(reader.text, reader.parsed, from, to);
    if (text === reader.text) return;
    Object.assign(reader, { ...readText(text, this.#options.read), inputs: reader.inputs });
    this.#scheduler.touch(reader);
  }

  move(name: string, to: number): void {
    const record = this.#cells.get(name);
    const others = this.#cells.all.filter((r) => r !== record);
    this.#cells.replace([...others.slice(0, to), record, ...others.slice(to)]);
    this.#options.onCells?.(this.cells());
  }

  async setControl(cell: string, control: string, value: unknown): Promise<void> {
    const record = this.#cells.get(cell);
    const slot = this.#scheduler.controls.slot(cell, control);
    if (!slot) throw new InputError(`${cell} has no control called '${control}'.`, { field: control });
    if (!this.#scheduler.controls.move(slot, value)) return;
    this.#scheduler.touch(record);
    const readers = this.#cells.all.filter((r) => (r.running ?? r).reads.has(slot));
    for (const reader of readers) this.#scheduler.mark(reader);
    this.#scheduler.markDownstream(readers.map((r) => r.name));
    this.#options.onSetting?.(cell, control);
    return this.#scheduler.schedule('in-sight');
  }

  ownerOf(control: object): { cell: string; name: string } | null {
    const slot = this.#scheduler.controls.slotOf(control);
    return slot ? { cell: slot.cell, name: slot.name } : null;
  }

  settings(): Record<string, Setting> {
    return this.#scheduler.controls.settings(new Set(this.#cells.names));
  }

  cells(): readonly CellText[] {
    return this.#cells.all.map(({ name, text }) => ({ name, text }));
  }

  state(name: string): CellState {
    return stateOf(this.#cells.get(name));
  }

  states(): readonly CellState[] {
    return this.#cells.all.map(stateOf);
  }

  phases(): CellPhase[] {
    return this.#cells.all.map(phaseOf);
  }

  downstream(name: string): string[] {
    const found = this.#cells.downstream([name]).map((record) => record.name);
    return found.filter((other) => other !== name);
  }

  dispose(): void {
    this.#scheduler.dispose();
  }

  #cellsChanged(): void {
    this.#scheduler.unsaved = true;
    this.#options.onCells?.(this.cells());
  }
}
