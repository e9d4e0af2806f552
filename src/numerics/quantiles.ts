import { RANK_BINS, writeRanked } from './selection.ts';

/** Quantiles of values of which some are missing or known to lie beyond a limit only. */
export interface Quantiles {
  /** One per probability asked for; −∞ or ∞ where the quantile lies beyond what was tested, NaN without values. */
  values: Float64Array;
  /** Values counted: everything but NaN. */
  count: number;
  missing: number;
  /** −∞ and ∞ among those counted: values known only to lie below or above. */
  below: number;
  above: number;
}

/**
 * Quantiles of a sample by selection, without sorting it.
 *
 * Model     the order statistic of rank ⌈p·count⌉: always one of the values, never a mixture of ±∞ and a number
 * Missing   NaN is left out and counted; ±∞ takes part and is counted
 * Cost      O(n) for a few probabilities; copies the sample
 * Source    rank of JCGM 101:2008, 7.7 (from memory); selection.ts
 *
 * @example
 * quantiles([3, 1, NaN, 2, Infinity], [0.5]).values // [2]
 */
export function quantiles(sample: ArrayLike<number>, probabilities: readonly number[]): Quantiles {
  const kept = new Float64Array(sample.length);
  let count = 0;
  let below = 0;
  let above = 0;
  for (let i = 0; i < sample.length; i++) {
    const value = sample[i]!;
    if (Number.isNaN(value)) continue;
    kept[count++] = value;
    if (value === Number.NEGATIVE_INFINITY) below++;
    else if (value === Number.POSITIVE_INFINITY) above++;
  }
  const ranks = probabilities.map((p) => Math.min(Math.max(Math.ceil(p * count), 1), count));
  const values = new Float64Array(probabilities.length).fill(NaN);
  if (count > 0) values.set(orderStatistics(kept.subarray(0, count), ranks));
  return { values, count, missing: sample.length - count, below, above };
}

/** Median of a sample and a range around it; a range may be open, NaN without values. */
export interface Spread {
  median: number;
  low: number;
  high: number;
}

/**
 * Median, and the range that leaves the share `tail` of the values on either side: with 0.025 the 95 % range. As
 * `quantiles` counts them.
 *
 * @example
 * spreadOf([1, 2, 3, 4, 5], 0.2).high // 4
 */
export function spreadOf(sample: ArrayLike<number>, tail = 0.025): Spread {
  const [low, median, high] = quantiles(sample, [tail, 0.5, 1 - tail]).values;
  return { median: median!, low: low!, high: high! };
}

/**
 * The values of these ranks, counted from 1, by selection. Changes the order of `values`.
 *
 * Missing   NaN is not accepted; leave it out before
 * Cost      as `writeRanked`
 */
export function orderStatistics(values: Float64Array, ranks: readonly number[]): number[] {
  const ascending = Int32Array.from(ranks).sort();
  const found = new Float64Array(ranks.length);
  writeRanked(values, values.length, ascending.slice(), new Int32Array(RANK_BINS), found);
  return ranks.map((rank) => found[ascending.indexOf(rank)]!);
}
