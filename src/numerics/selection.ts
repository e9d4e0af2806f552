/**
 * Put the values of some ranks in their places among the first `count` values, smaller ones before and greater ones
 * behind each: selection without sorting.
 *
 * Shape     `ranks` counted from 1, ascending
 * Missing   NaN is not accepted; leave it out before
 * Cost      O(n·log k) for k ranks; allocates nothing
 * Source    Hoare 1961, Commun ACM 4:321 (from memory)
 */
export function placeRanks(values: Float64Array, count: i32, ranks: Int32Array): void {
  placeBetween(values, 0, count - 1, ranks, 0, ranks.length - 1);
}

/** The same for ranks[first..last], all of them among values[from..to]: the middle one first. */
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
