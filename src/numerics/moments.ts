/**
 * Mean and standard deviation (n − 1), weighted if weights are given; NaN where there are too few values.
 *
 * Model     two passes, the second corrected for the rounding of the mean
 * Shape     weights count repetitions: a weight of 2 equals the value twice
 * Accuracy  digits on each NIST StRD univariate set in tests/numerics/moments.test.ts
 * Source    the corrected two-pass formula of Chan, Golub & LeVeque 1983, Am Stat 37:242–247 (from memory)
 *
 * @example
 * moments([2, 4, 4, 4, 5, 5, 7, 9]).sd // 2.1380899352994
 */
export function moments(
  sample: ArrayLike<number>,
  { weights }: { weights?: ArrayLike<number> } = {},
): { mean: number; sd: number; count: number } {
  let count = 0;
  let sum = 0;
  for (let i = 0; i < sample.length; i++) {
    count += weights?.[i] ?? 1;
    sum += (weights?.[i] ?? 1) * sample[i]!;
  }
  const rough = sum / count;
  let gaps = 0;
  let squares = 0;
  for (let i = 0; i < sample.length; i++) {
    const gap = sample[i]! - rough;
    gaps += (weights?.[i] ?? 1) * gap;
    squares += (weights?.[i] ?? 1) * gap * gap;
  }
  const variance = (squares - (gaps * gaps) / count) / (count - 1);
  return { mean: rough + gaps / count, sd: count > 1 ? Math.sqrt(variance) : NaN, count };
}
