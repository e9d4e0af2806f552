/** Into so many bins the values are counted first. */
export const RANK_BINS: i32 = 256;

/**
 * Write the values of some ranks among the first `count` values to `out`: selection without sorting.
 *
 * Model     values are counted in bins of equal width; only those in the bins of the wanted ranks are looked at further,
 *           and ordered by partition around a pivot. Where one bin holds them all that is plain selection
 * Shape     `ranks` counted from 1, ascending, and used up; `bins` is room for `RANK_BINS`. Changes the order of `values`
 * Missing   NaN is not accepted; leave it out before
 * Cost      three passes, and O(m·log k) for k ranks and m values in their bins; allocates nothing
 * Source    Hoare 1961, Commun ACM 4:321, for the partition (from memory)
 */
export function writeRanked(
  values: Float64Array,
  count: i32,
  ranks: Int32Array,
  bins: Int32Array,
  out: Float64Array,
): void {
  if (ranks.length === 0) return;
  const near = gather(values, count, ranks, bins);
  placeBetween(values, 0, near - 1, ranks, 0, ranks.length - 1);
  for (let k = 0; k < ranks.length; k++) out[k] = values[ranks[k]! - 1]!;
}

/** Bring the values that may have the ranks to the front, and count the ranks among those; returns how many they are. */
function gather(values: Float64Array, count: i32, ranks: Int32Array, bins: Int32Array): i32 {
  if (count < RANK_BINS) return count;
  let least = values[0]!;
  let greatest = least;
  for (let i = 1; i < count; i++) {
    const value = values[i]!;
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  const last: number = RANK_BINS - 1;
  const perBin = last / (greatest - least);
  // Equal values have no width, nor has what reaches to infinity.
  if (!(perBin > 0 && perBin < Infinity)) return count;
  for (let b = 0; b < RANK_BINS; b++) bins[b] = 0;
  for (let i = 0; i < count; i++) {
    const b = Math.floor((values[i]! - least) * perBin) as i32;
    bins[b] = bins[b]! + 1;
  }
  wantBins(ranks, bins);
  let near = 0;
  for (let i = 0; i < count; i++) {
    const value = values[i]!;
    if (bins[Math.floor((value - least) * perBin) as i32] === 0) continue;
    values[i] = values[near]!;
    values[near++] = value;
  }
  return near;
}

/** Turns counts into marks of the bins that hold one of the ranks, and ranks into those among the values of these bins. */
function wantBins(ranks: Int32Array, bins: Int32Array): void {
  let passed = 0;
  let skipped = 0;
  let next = 0;
  for (let b = 0; b < RANK_BINS; b++) {
    const here = bins[b]!;
    passed += here;
    const first = next;
    for (; next < ranks.length && ranks[next]! <= passed; next++) ranks[next] = ranks[next]! - skipped;
    bins[b] = next > first ? 1 : 0;
    if (next === first) skipped += here;
  }
}

/** Puts the values of ranks[first..last], all of them among values[from..to], in their places: the middle one first. */
function placeBetween(
  values: Float64Array,
  from: i32,
  to: i32,
  ranks: Int32Array,
  first: i32,
  last: i32,
): void {
  if (first > last) return;
  const middle = (first + last) >> 1;
  const at = ranks[middle]! - 1;
  select(values, at, from, to);
  placeBetween(values, from, at, ranks, first, middle - 1);
  placeBetween(values, at, to, ranks, middle + 1, last);
}

/** Move the value of rank `rank` (from 0) to its place among values[from..to], smaller ones left of it. */
function select(values: Float64Array, rank: i32, from: i32, to: i32): void {
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
}

function medianOfThree(a: number, b: number, c: number): number {
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}
