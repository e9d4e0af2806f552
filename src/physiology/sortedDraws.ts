/**
 * Write the answers among the draws of a method to the front of `answers`, as true intensities if there is a scale, and
 * how often each number of a refusal occurs to `counts` (at 0: answers). Returns how many answered.
 */
export function sortOut(
  draws: i32,
  x: Float64Array,
  code: Int32Array,
  scale: Float64Array | null,
  answers: Float64Array,
  counts: Int32Array,
): i32 {
  for (let k = 0; k < counts.length; k++) counts[k] = 0;
  let answered = 0;
  for (let d = 0; d < draws; d++) {
    const refused = code[d]!;
    counts[refused] = counts[refused]! + 1;
    if (refused !== 0) continue;
    answers[answered++] = scale === null ? x[d]! : x[d]! * scale[d]!;
  }
  return answered;
}
