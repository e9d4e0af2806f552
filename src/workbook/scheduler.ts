import { blockOf } from './blocks.ts';
import type { CellList } from './cellList.ts';
import { Controls } from './controls.ts';
import type { CellState, EngineOptions } from './engineTypes.ts';
import { faultProblem } from './faults.ts';
import { gatherInputs, unchanged } from './inputs.ts';
import { Libraries } from './libraries.ts';
import { isCellPath } from './names.ts';
import { type CellRecord, type Run, stateOf } from './record.ts';
import { beginRun, callCell, land, landValues, stopRun } from './runs.ts';

/**
 * Decides what runs when. A change marks the changed cell and all its downstream as due and drops their runs in
 * progress; then, one microtask later, so that changes made together are one batch, the cells are taken in order: a
 * due cell whose upstream is settled is either blocked, found unchanged, or run; cells in sight and what they need go
 * first. Cells without a top-level await run to their end in that one pass, unless the page asks for a rest; each run
 * that ends later makes another pass.
 */
export class Scheduler {
  /** Those of the open workbook. */
  controls = new Controls();
  /** A text changed since the page last saved. */
  unsaved = false;
  readonly #cells: CellList;
  readonly #options: EngineOptions;
  readonly #libraries: Libraries;
  /** Nothing runs before start(). */
  #started = false;
  #disposed = false;
  #saving = false;
  #scheduled = false;
  /** The pass that goes on when the page has rested; one that began meanwhile takes its place. */
  #resting: object | null = null;
  #waiters: Waiter[] = [];
  /** What is in sight or needed for it, as the last pass found it. */
  #seen: ReadonlySet<CellRecord> = new Set();
  /** Cells whose state may have changed since the page was told. */
  #touched = new Set<CellRecord>();

  constructor(cells: CellList, options: EngineOptions) {
    this.#cells = cells;
    this.#options = options;
    this.#libraries = new Libraries(options.libraries, options.early);
  }

  /** The cells are those of another workbook now, which waits to be started. */
  reset(controls: Controls): void {
    this.controls = controls;
    this.unsaved = false;
    this.#started = false;
    this.#touched = new Set(this.#cells.all);
    this.#tell();
    this.#settle();
  }

  start(): void {
    this.#started = true;
    for (const record of this.#cells.all) if (!record.ended && !record.block) this.mark(record);
  }

  dispose(): void {
    this.#disposed = true;
    for (const record of this.#cells.all) stopRun(record);
    for (const { resolve } of this.#waiters.splice(0)) resolve();
  }

  /** The page may have to be told about the cell. */
  touch(record: CellRecord): void {
    this.#touched.add(record);
  }

  /** The cell is taken out of the workbook. */
  forget(record: CellRecord): void {
    stopRun(record);
    for (const slot of record.slots) this.controls.forget(slot);
    this.#touched.delete(record);
  }

  /** Due, and a run in progress dropped: it saw what no longer holds. */
  mark(record: CellRecord): void {
    record.due = true;
    if (record.running) stopRun(record);
    this.touch(record);
  }

  markDownstream(names: readonly string[]): void {
    for (const record of this.#cells.downstream(names)) this.mark(record);
  }

  /** Resolves when nothing is left to run, or nothing that is in sight. */
  schedule(of: Waiter['of'] = 'all'): Promise<void> {
    if (!this.#scheduled) {
      this.#scheduled = true;
      void Promise.resolve().then(() => this.#turn());
    }
    return new Promise((resolve) => this.#waiters.push({ of, resolve }));
  }

  async #turn(): Promise<void> {
    this.#scheduled = false;
    if (this.#saving) return; // the turn that saves goes on to the pass
    while (this.#started && this.unsaved) await this.#save();
    this.#pass();
  }

  async #save(): Promise<void> {
    this.unsaved = false;
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
    this.#resting = null;
    const rest = this.#started ? this.#takeAll() : null;
    this.#tell();
    if (rest) this.#goOnAfter(rest);
    this.#settle();
  }

  /** Takes cells until the page asks for a rest, or there is none left. */
  #takeAll(): Promise<void> | null {
    const seen = this.#cells.withUpstream(this.#options.inSight?.() ?? this.#cells.names);
    this.#seen = seen;
    const order = this.#cells.inRunOrder;
    for (const record of [...order.filter((r) => seen.has(r)), ...order.filter((r) => !seen.has(r))]) {
      if (!record.due || !this.#isReady(record)) continue;
      const rest = this.#options.rest?.(seen.has(record));
      if (rest) return rest;
      this.#take(record);
    }
    return null;
  }

  #goOnAfter(rest: Promise<void>): void {
    const resting = {};
    this.#resting = resting;
    void rest.then(() => {
      if (this.#resting === resting) this.#pass();
    });
  }

  /** Members of a circle wait for nobody: they are told so at once. */
  #isReady(record: CellRecord): boolean {
    if (this.#cells.circles.has(record.name) || record.rewritten.problem) return true;
    return this.#cells.usedBy(record).every((used) => !used.due && !used.running);
  }

  #take(record: CellRecord): void {
    if (!record.rewritten.problem && !this.#librariesReady(record)) return;
    record.due = false;
    this.touch(record);
    record.block = blockOf(record, this.#cells, this.#libraries);
    if (record.block) return;
    const sources = { cells: this.#cells.byName, libraries: this.#libraries.loaded, controls: this.controls };
    const inputs = gatherInputs(record, sources);
    if (!unchanged(record, inputs)) this.#start(record, beginRun(record, inputs, this.#now()));
  }

  /** Asks for libraries that are not there yet; the cell stays due until they are. */
  #librariesReady(record: CellRecord): boolean {
    const pending = record.parsed.imports
      .filter(({ from }) => !isCellPath(from))
      .flatMap(
        ({ from, names }) =>
          this.#libraries.request(
            from,
            names.map(({ name }) => name),
          ) ?? [],
      );
    for (const loading of pending) void loading.then(() => this.#pass());
    return pending.length === 0;
  }

  #start(record: CellRecord, run: Run): void {
    const fail = (fault: unknown) => this.#fail(record, run, fault);
    const finish = (exported: unknown[]) => this.#guard(() => this.#succeed(record, run, exported), fail);
    this.#guard(() => {
      const exported = callCell(record, run, this.controls, (from) => this.#libraries.dynamic(from));
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
    landValues(record, run, exported, this.controls);
    this.touch(record);
  }

  #fail(record: CellRecord, run: Run, fault: unknown): void {
    if (record.running !== run) return;
    record.milliseconds = this.#now() - run.started;
    const offers = { cells: this.#cells.byName, libraries: this.#libraries.loaded };
    record.problem = faultProblem(fault, record, run.compiled, offers);
    land(record, run, record.problem.notYet ? 'waiting' : 'failed');
    this.touch(record);
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

  /** Tells those who wait, when nothing is left of what they wait for. */
  #settle(): void {
    if (this.#saving || this.#scheduled) return;
    const left = this.#cells.all.filter((r) => r.running || (this.#started && r.due));
    const leftOf = { all: left.length, 'in-sight': left.filter((r) => this.#seen.has(r)).length };
    const waiters = this.#waiters;
    this.#waiters = waiters.filter(({ of }) => leftOf[of] > 0);
    for (const { of, resolve } of waiters) if (leftOf[of] === 0) resolve();
  }
}

/** Somebody who waits until all cells have run, or those in sight with what they need. */
interface Waiter {
  of: 'all' | 'in-sight';
  resolve(): void;
}
