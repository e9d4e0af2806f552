import { InputError } from '../base/inputError.ts';
import { quantiles } from './quantiles.ts';

/** Ends of an interval, in the unit of the values. */
export interface CoverageInterval {
  low: number;
  high: number;
}

/**
 * Interval that holds a share of a sample and leaves out as much at either end.
 *
 * Missing   NaN is left out; ±∞ takes part
 * Source    JCGM 101:2008, 7.7.2 (from memory), with ranks ⌈p·n⌉
 *
 * @example
 * symmetricInterval([5, 1, 2, 3, 4], 0.6) // { low: 1, high: 4 }
 */
export function symmetricInterval(sample: ArrayLike<number>, share: number): CoverageInterval {
  const [low, high] = quantiles(sample, [(1 - share) / 2, (1 + share) / 2]).values;
  return { low: low!, high: high! };
}

/**
 * The shortest interval that holds a share of a sample; of equally short ones the lowest.
 *
 * Missing   not accepted: values must be finite
 * Cost      sorts a copy
 * Source    JCGM 101:2008, 7.7.3 (from memory): from order statistic r to r + q, q the nearest integer to share·n
 *
 * @example
 * shortestInterval([0, 5, 6, 7, 20], 0.4) // { low: 5, high: 7 }
 */
export function shortestInterval(sample: ArrayLike<number>, share: number): CoverageInterval {
  const sorted = Float64Array.from(sample).sort();
  const held = Math.min(Math.max(Math.round(share * sorted.length), 0), sorted.length - 1);
  if (!(Number.isFinite(sorted[0]) && Number.isFinite(sorted.at(-1)))) {
    throw new InputError('A shortest interval needs at least one value, all of them finite');
  }
  let best = 0;
  for (let r = 1; r + held < sorted.length; r++) {
    if (sorted[r + held]! - sorted[r]! < sorted[best + held]! - sorted[best]!) best = r;
  }
  return { low: sorted[best]!, high: sorted[best + held]! };
}
