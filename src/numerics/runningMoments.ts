import { moments } from './moments.ts';

/**
 * Mean and standard deviation of values that come in blocks and are not kept.
 *
 * Missing   values that are not finite are left out
 * Source    moments of two sets from those of each (Chan, Golub & LeVeque 1983, Am Stat 37:242–247, from memory)
 *
 * @example
 * new RunningMoments().add([1, 2]).add([3, 4, NaN]).mean // 2.5
 */
export class RunningMoments {
  #count = 0;
  #mean = 0;
  #squares = 0;

  add(block: ArrayLike<number>): this {
    return this.join(moments(Float64Array.from(block).filter(Number.isFinite)));
  }

  /** The moments of a block in its place. */
  join({ mean, sd, count }: ReturnType<typeof moments>): this {
    if (count === 0) return this;
    const gap = mean - this.#mean;
    const all = this.#count + count;
    const within = count > 1 ? (count - 1) * sd * sd : 0;
    this.#squares += within + (gap * gap * this.#count * count) / all;
    this.#mean += (gap * count) / all;
    this.#count = all;
    return this;
  }

  get count(): number {
    return this.#count;
  }

  /** NaN without values. */
  get mean(): number {
    return this.#count > 0 ? this.#mean : Number.NaN;
  }

  /** NaN with fewer than two. */
  get sd(): number {
    return this.#count > 1 ? Math.sqrt(this.#squares / (this.#count - 1)) : Number.NaN;
  }
}
