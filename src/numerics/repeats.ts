import { InputError } from '../base/inputError.ts';
import { moments } from './moments.ts';

/** What two trials of the same things say of the error of one. */
export interface Repeats {
  pairs: number;
  /** Mean of second less first, and its standard error. */
  bias: number;
  biasError: number;
  /** Standard deviation of the differences. */
  sd: number;
  /** Limits of agreement: bias ± 1.96 sd. */
  limits: { low: number; high: number };
  /** Standard deviation of one trial: sd/√2. */
  typicalError: number;
  /** The same as a share, from the logarithms; NaN when a value is not above 0. */
  variation: number;
  /** Change that two single trials must show: 1.96·√2·typical error. */
  smallestChange: number;
}

/**
 * Typical error and limits of agreement from pairs of trials, or of two ways to measure.
 *
 * Shape     first[n], second[n], n >= 2, pair by pair
 * Throws    InputError when lengths differ or there are fewer than 2 pairs
 * Accuracy  10 digits on numpy for the examples of both papers (tests/numerics/repeats.test.ts)
 * Source    Hopkins 2000, Sports Med 30:1–15; Bland & Altman 1986, Lancet 327:307–310 (both from memory)
 *
 * @example
 * repeatsOf([62, 78, 81, 55, 66], [67, 76, 87, 55, 63]).typicalError // 2.889637
 */
export function repeatsOf(first: ArrayLike<number>, second: ArrayLike<number>): Repeats {
  if (first.length !== second.length || first.length < 2) {
    throw new InputError(`Expected at least 2 pairs, got ${first.length} and ${second.length} values`);
  }
  const { mean: bias, sd } = moments(Array.from(first, (value, i) => second[i]! - value));
  const logs = moments(Array.from(first, (value, i) => Math.log(second[i]! / value)));
  const typicalError = sd / Math.SQRT2;
  return {
    pairs: first.length,
    bias,
    biasError: sd / Math.sqrt(first.length),
    sd,
    limits: { low: bias - 1.96 * sd, high: bias + 1.96 * sd },
    typicalError,
    variation: Math.expm1(logs.sd / Math.SQRT2),
    smallestChange: 1.96 * Math.SQRT2 * typicalError,
  };
}
