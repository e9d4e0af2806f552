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
 * Source    rank of JCGM 101:2008, 7.7 (from memory); selection after Hoare 1961, Commun ACM 4:321 (from memory)
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
  const values = new Float64Array(probabilities.length).fill(NaN);
  // In ascending order each selection leaves everything to its left in place for the next.
  const order = probabilities.map((_, k) => k).sort((a, b) => probabilities[a]! - probabilities[b]!);
  let from = 0;
  for (const k of order) {
    if (count === 0) break;
    const rank = Math.min(Math.max(Math.ceil(probabilities[k]! * count), 1), count) - 1;
    values[k] = select(kept, rank, from, count - 1);
    from = rank;
  }
  return { values, count, missing: sample.length - count, below, above };
}

/** Move the value of rank `rank` (from 0) to its place among values[from..to], smaller ones left of it. */
function select(values: Float64Array, rank: number, from: number, to: number): number {
  while (from < to) {
    const pivot = medianOfThree(values[from]!, values[(from + to) >> 1]!, values[to]!);
    let left = from;
    let right = to;
    while (left <= right) {
      while (values[left]! < pivot) left++;
      while (values[right]! > pivot) right--;
      if (left <= right) {
        const swapped = values[left]!;
        values[left++] = values[right]!;
        values[right--] = swapped;
      }
    }
    if (rank <= right) to = right;
    else if (rank >= left) from = left;
    else break;
  }
  return values[rank]!;
}

function medianOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
