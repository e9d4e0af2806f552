/** A key for each cell, the same through every rename: by it the cell's element keeps editor and focus. */
export class CellKeys {
  readonly #keys = new Map<string, string>();
  #newest = 0;

  /** The key of a cell; a new one for a cell that has none. */
  of(cell: string): string {
    const known = this.#keys.get(cell);
    if (known !== undefined) return known;
    const key = `cell-${++this.#newest}`;
    this.#keys.set(cell, key);
    return key;
  }

  /** The cell is about to be called otherwise; until it is, both names have its key. */
  share(cell: string, name: string): void {
    this.#keys.set(name, this.of(cell));
  }

  forget(cell: string): void {
    this.#keys.delete(cell);
  }

  /** Forgets the cells that are no more. */
  keep(isThere: (cell: string) => boolean): void {
    for (const cell of this.#keys.keys()) if (!isThere(cell)) this.#keys.delete(cell);
  }
}
