import { InputError } from '../base/inputError.ts';
import { circles, reachedFrom, readersOf, runOrder, type Uses } from './graph.ts';
import type { CellRecord } from './record.ts';

/** The cells of a workbook in their order, and what follows from their imports. */
export class CellList {
  byName: ReadonlyMap<string, CellRecord> = new Map();
  /** Each after those it uses. */
  inRunOrder: readonly CellRecord[] = [];
  /** The way round, for each cell that is in a circle. */
  circles: ReadonlyMap<string, readonly string[]> = new Map();
  #uses: Uses = new Map();
  #readers: Uses = new Map();

  get all(): CellRecord[] {
    return [...this.byName.values()];
  }

  get names(): string[] {
    return [...this.byName.keys()];
  }

  replace(records: readonly CellRecord[]): void {
    this.byName = new Map(records.map((record) => [record.name, record]));
    this.rewire();
  }

  /** After the imports of a cell changed. */
  rewire(): void {
    this.#uses = new Map(this.all.map((record) => [record.name, record.uses]));
    this.#readers = readersOf(this.#uses);
    this.inRunOrder = this.#existing(runOrder(this.#uses));
    this.circles = circles(this.#uses);
  }

  get(name: string): CellRecord {
    const record = this.byName.get(name);
    if (!record) throw new InputError(`There is no cell called '${name}'.`, { field: 'name' });
    return record;
  }

  /** The cells it imports, as far as they exist. */
  usedBy(record: CellRecord): CellRecord[] {
    return this.#existing(this.#uses.get(record.name)!);
  }

  /** The cells of `names` and all that these directly or indirectly use. */
  withUpstream(names: Iterable<string>): Set<CellRecord> {
    const first = [...names];
    return new Set(this.#existing([...first, ...reachedFrom(this.#uses, first)]));
  }

  /** All that directly or indirectly use one of `names`, which need not exist. */
  downstream(names: readonly string[]): CellRecord[] {
    const found = reachedFrom(this.#readers, names);
    return this.all.filter((record) => found.has(record.name));
  }

  #existing(names: Iterable<string>): CellRecord[] {
    return [...names].flatMap((name) => this.byName.get(name) ?? []);
  }
}
