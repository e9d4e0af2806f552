import { InputError } from '../base/inputError.ts';

export interface Histogram {
  lo: number;
  hi: number;
  /** Values in each of the equal bins from lo to hi; a value on an inner edge belongs to the right, hi to the last. */
  counts: Uint32Array;
  below: number;
  above: number;
  missing: number;
}

/**
 * Counts of a sample in equal bins; values outside and NaN are counted apart, so that nothing is lost unseen.
 *
 * @example
 * histogram([0.5, 1.5, 1.7, 9], { lo: 0, hi: 2, bins: 2 }).counts // [1, 2]
 */
export function histogram(
  sample: ArrayLike<number>,
  { lo, hi, bins }: { lo: number; hi: number; bins: number },
): Histogram {
  if (!(hi > lo && bins >= 1)) throw new InputError('A histogram needs hi above lo and at least one bin');
  const counts = new Uint32Array(bins);
  let below = 0;
  let above = 0;
  let missing = 0;
  for (let i = 0; i < sample.length; i++) {
    const value = sample[i]!;
    if (Number.isNaN(value)) missing++;
    else if (value < lo) below++;
    else if (value > hi) above++;
    else counts[Math.min(bins - 1, Math.floor((bins * (value - lo)) / (hi - lo)))]!++;
  }
  return { lo, hi, counts, below, above, missing };
}
