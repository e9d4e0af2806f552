import { symmetricInterval } from './coverage.ts';
import { moments } from './moments.ts';
import { RunningMoments } from './runningMoments.ts';

/**
 * Half a unit in the last of so many significant digits of a standard uncertainty: what a result that is printed with
 * them may be off by.
 *
 * Source    JCGM 101:2008, 7.9.2 (from memory)
 *
 * @example
 * numericalTolerance(0.00035, 2) // 0.000005
 */
export function numericalTolerance(uncertainty: number, digits: number): number {
  // The exponent after rounding: 0.996 to two digits is 1.0.
  const exponent = Number(uncertainty.toExponential(digits - 1).split('e')[1]);
  return 0.5 * 10 ** (exponent - digits + 1);
}

/**
 * Tells when blocks of Monte Carlo draws of one quantity agree well enough to stop.
 *
 * Model     mean, standard deviation and both ends of the interval are taken of each block; the standard error of
 *           their averages over the blocks, twice, must be below the numerical tolerance of the standard deviation of all
 * Missing   NaN is left out; ±∞ counts for the ends only. An end that lies beyond in every block has settled
 * Source    JCGM 101:2008, 7.9.4 (from memory)
 */
export class AdaptiveBlocks {
  readonly #share: number;
  readonly #digits: number;
  /** One row for each of mean, standard deviation, low and high: its value in every block. */
  readonly #figures: [number[], number[], number[], number[]] = [[], [], [], []];
  readonly #all = new RunningMoments();

  constructor({ share = 0.95, digits = 2 }: { share?: number; digits?: number } = {}) {
    this.#share = share;
    this.#digits = digits;
  }

  add(block: Float64Array): void {
    const finite = moments(block.filter(Number.isFinite));
    const { low, high } = symmetricInterval(block, this.#share);
    [finite.mean, finite.sd, low, high].forEach((value, k) => {
      this.#figures[k]!.push(value);
    });
    this.#all.join(finite);
  }

  /** Standard deviation of all finite values. */
  get sd(): number {
    return this.#all.sd;
  }

  /** How far from settled: the greatest doubled standard error over the tolerance; below 1 is settled. */
  get excess(): number {
    const errors = this.#figures.map(standardError);
    if (errors.includes(Number.POSITIVE_INFINITY)) return Number.POSITIVE_INFINITY;
    if (errors.every((error) => error === 0)) return 0;
    return (2 * Math.max(...errors)) / numericalTolerance(this.sd, this.#digits);
  }

  get settled(): boolean {
    return this.excess < 1;
  }
}

/** Standard error of the average over blocks; 0 when all are alike, as two ends beyond the range are; ∞ for one block. */
function standardError(values: number[]): number {
  if (values.length < 2) return Number.POSITIVE_INFINITY;
  if (values.every((value) => value === values[0])) return 0;
  const { sd } = moments(values);
  return Number.isNaN(sd) ? Number.POSITIVE_INFINITY : sd / Math.sqrt(values.length);
}
