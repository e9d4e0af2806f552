import { writeMoments } from './writeMoments.ts';

/**
 * Mean and standard deviation of a sample, weighted if weights are given: see `writeMoments`.
 *
 * @example
 * moments([2, 4, 4, 4, 5, 5, 7, 9]).sd // 2.1380899352994
 */
export function moments(
  sample: ArrayLike<number>,
  { weights }: { weights?: ArrayLike<number> } = {},
): { mean: number; sd: number; count: number } {
  const out = new Float64Array(3);
  writeMoments(Float64Array.from(sample), sample.length, weights ? Float64Array.from(weights) : null, out);
  const [mean, sd, count] = out as unknown as [number, number, number];
  return { mean, sd, count };
}
