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
