/**
 * Write mean, standard deviation (n − 1) and count of the first n values to `out`; weighted if there are weights. NaN where
 * there are too few.
 *
 * Model     two passes, the second corrected for the rounding of the mean
 * Shape     weights count repetitions: a weight of 2 equals the value twice
 * Accuracy  digits on each NIST StRD univariate set in tests/numerics/moments.test.ts
 * Cost      allocates nothing
 * Source    the corrected two-pass formula of Chan, Golub & LeVeque 1983, Am Stat 37:242–247 (from memory)
 */
export function writeMoments(
  values: Float64Array,
  n: i32,
  weights: Float64Array | null,
  out: Float64Array,
): void {
  let count: number = 0;
  let sum: number = 0;
  for (let i = 0; i < n; i++) {
    const weight: number = weights === null ? 1 : weights[i]!;
    count += weight;
    sum += weight * values[i]!;
  }
  const rough = sum / count;
  let gaps: number = 0;
  let squares: number = 0;
  for (let i = 0; i < n; i++) {
    const weight: number = weights === null ? 1 : weights[i]!;
    const gap = values[i]! - rough;
    gaps += weight * gap;
    squares += weight * gap * gap;
  }
  const variance = (squares - (gaps * gaps) / count) / (count - 1);
  out[0] = rough + gaps / count;
  out[1] = count > 1 ? Math.sqrt(variance) : NaN;
  out[2] = count;
}
