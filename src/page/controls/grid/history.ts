import type { GridValue, TableSource } from '../../../base/grid.ts';

/** The table, and where it came from, if somebody brought it: both go back and forth together. */
export interface Step {
  grid: GridValue;
  source: TableSource | null;
}

/** Steps back and forth through values; a new value drops the steps that were taken back. */
export class History<T> {
  #past: T[] = [];
  #future: T[] = [];

  get canUndo(): boolean {
    return this.#past.length > 0;
  }

  get canRedo(): boolean {
    return this.#future.length > 0;
  }

  /** Remember `before`, the value that is being replaced. */
  record(before: T): void {
    this.#past.push(before);
    this.#future = [];
  }

  /** What the next step back leads to. */
  get last(): T | undefined {
    return this.#past.at(-1);
  }

  /** Drops the last step: what it would take back has gone already. */
  forget(): void {
    this.#past.pop();
  }

  /** The value before, or undefined when there is none. */
  undo(now: T): T | undefined {
    return this.#step(this.#past, this.#future, now);
  }

  redo(now: T): T | undefined {
    return this.#step(this.#future, this.#past, now);
  }

  #step(from: T[], to: T[], now: T): T | undefined {
    const value = from.pop();
    if (value !== undefined) to.push(now);
    return value;
  }
}
