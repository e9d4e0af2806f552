import { InputError } from '../base/inputError.ts';

/**
 * Quantiles of any number of values in constant memory: counts on an even grid.
 *
 * Model     the order statistic of rank ⌈p·count⌉, placed within its cell as if the values there lay evenly
 * Missing   NaN is left out; −∞ and ∞ count as known to lie below and above
 * Error     at most the width of a cell, (high − low)/cells, for values between low and high; values beyond are counted
 *           in the cells at the ends
 * Cost      constant memory and time a value
 *
 * @example
 * new GridQuantiles({ low: 0, high: 10, cells: 100 }).add([1, 2, 3, 4, 5]).quantile(0.5).toFixed(0) // '3'
 */
export class GridQuantiles {
  readonly #low: number;
  readonly #width: number;
  readonly #counts: Float64Array;
  #count = 0;
  #below = 0;

  constructor({ low, high, cells }: { low: number; high: number; cells: number }) {
    if (!(high > low) || !Number.isSafeInteger(cells) || cells < 1) {
      throw new InputError(
        `A grid needs a low end below its high end and cells, got ${low}, ${high}, ${cells}`,
      );
    }
    this.#low = low;
    this.#width = (high - low) / cells;
    this.#counts = new Float64Array(cells);
  }

  /** Values counted. */
  get count(): number {
    return this.#count;
  }

  add(values: ArrayLike<number>): this {
    const last = this.#counts.length - 1;
    for (let i = 0; i < values.length; i++) {
      const value = values[i]!;
      if (Number.isNaN(value)) continue;
      this.#count++;
      if (value === Number.NEGATIVE_INFINITY) this.#below++;
      else if (value !== Number.POSITIVE_INFINITY) {
        const cell = Math.floor((value - this.#low) / this.#width);
        this.#counts[Math.min(Math.max(cell, 0), last)]!++;
      }
    }
    return this;
  }

  /** −∞ or ∞ where the quantile lies among the values known only to lie below or above; NaN without values. */
  quantile(p: number): number {
    if (this.#count === 0) return Number.NaN;
    let left = Math.min(Math.max(Math.ceil(p * this.#count), 1), this.#count) - this.#below;
    if (left < 1) return Number.NEGATIVE_INFINITY;
    for (let cell = 0; cell < this.#counts.length; cell++) {
      const here = this.#counts[cell]!;
      if (left <= here) return this.#low + (cell + (left - 0.5) / here) * this.#width;
      left -= here;
    }
    return Number.POSITIVE_INFINITY;
  }
}
