/** Holds what was worked out last, until what it was worked out from is another. */
export class Remembered<T> {
  #last: { from: readonly unknown[]; value: T } | null = null;

  of(from: readonly unknown[], work: () => T): T {
    const last = this.#last;
    if (last && from.every((one, i) => one === last.from[i])) return last.value;
    const value = work();
    this.#last = { from, value };
    return value;
  }
}
