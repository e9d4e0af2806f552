import { CODE_NUMBERS } from './refusal.ts';
import type { Density, Interval, IntervalEnd, MethodDraws } from './samplingTypes.ts';

/** Sorted draws of one method with those known to lie below or above the tested range. */
export interface CensoredDraws {
  /** Answers, ascending. */
  sorted: Float64Array;
  below: number;
  above: number;
}

/** Sorts out the draws of one method; with `scale`, answers become true intensities. */
export function censoredDraws({ x, code }: MethodDraws, scale: Float64Array | null): CensoredDraws {
  const answers = new Float64Array(x.length);
  let [answered, below, above] = [0, 0, 0];
  for (let d = 0; d < x.length; d++) {
    if (code[d] === CODE_NUMBERS.E_ALREADY_ABOVE) below++;
    else if (code[d] === CODE_NUMBERS.E_NOT_REACHED) above++;
    else if (code[d] === 0) answers[answered++] = scale ? x[d]! * scale[d]! : x[d]!;
  }
  return { sorted: answers.subarray(0, answered).sort(), below, above };
}

/**
 * Order statistic of rank ⌈p·B⌉ among answers and draws beyond the range; an end without a value lies beyond.
 *
 * Source    JCGM 101:2008, 7.7 (from memory); censored ends are our rule
 */
export function censoredQuantile({ sorted, below, above }: CensoredDraws, p: number): IntervalEnd {
  return atRank(sorted, below, above, Math.ceil(p * (below + sorted.length + above)));
}

function atRank(sorted: Float64Array, below: number, above: number, wanted: number): IntervalEnd {
  const all = below + sorted.length + above;
  const rank = Math.min(Math.max(wanted, 1), all);
  if (rank <= below) return { value: null, beyond: 'below' };
  if (rank > below + sorted.length) return { value: null, beyond: 'above' };
  return { value: sorted[rank - below - 1]!, beyond: null };
}

/** Interval that leaves out the same share of draws at both ends. */
export const censoredInterval = (draws: CensoredDraws, share: number): Interval => ({
  low: censoredQuantile(draws, (1 - share) / 2),
  high: censoredQuantile(draws, (1 + share) / 2),
});

/**
 * Monte Carlo standard error of the quantile at p: half the distance between the order statistics one binomial
 * standard deviation of rank on either side; null where one of them lies beyond the range.
 */
export function quantileError({ sorted, below, above }: CensoredDraws, p: number): number | null {
  const all = below + sorted.length + above;
  const spread = Math.sqrt(all * p * (1 - p));
  const low = atRank(sorted, below, above, Math.floor(all * p - spread));
  const high = atRank(sorted, below, above, Math.ceil(all * p + spread));
  return low.value === null || high.value === null ? null : (high.value - low.value) / 2;
}

/** Mean and standard deviation (n − 1) of draws; null when there are fewer than two. */
export function moments(values: Float64Array): { mean: number; sd: number } | null {
  if (values.length < 2) return null;
  let sum = 0;
  for (const value of values) sum += value;
  const mean = sum / values.length;
  let squares = 0;
  for (const value of values) squares += (value - mean) ** 2;
  return { mean, sd: Math.sqrt(squares / (values.length - 1)) };
}

/** Draws that differ by less than this share of their size differ by rounding only. */
const ROUNDING = 1e-12;
/** Points of a density curve. */
const DENSITY_POINTS = 80;

/**
 * Smoothed density of sorted draws on an even grid; null when they do not spread. Its integral is `share`.
 *
 * Model     counts on the grid (linear binning), smoothed with a normal kernel
 * Source    Silverman 1986, Density Estimation, bandwidth 0.9·min(SD, IQR/1.34)·B^(−1/5) (from memory)
 * Error     the outermost 0.2 % of draws at either end are not drawn
 */
export function densityOf(sorted: Float64Array, sd: number, share: number): Density | null {
  const at = (p: number) => sorted[Math.min(sorted.length - 1, Math.floor(p * sorted.length))]!;
  const quartiles = at(0.75) - at(0.25);
  const spread = quartiles > 0 ? Math.min(sd, quartiles / 1.34) : sd;
  if (!(spread > ROUNDING * Math.abs(at(0.5)))) return null;
  const bandwidth = 0.9 * spread * sorted.length ** -0.2;
  const start = at(0.002) - 3 * bandwidth;
  const step = (at(0.998) + 3 * bandwidth - start) / (DENSITY_POINTS - 1);
  const y = smoothed(binned(sorted, start, step), bandwidth / step);
  return {
    x: Float64Array.from(y, (_, i) => start + i * step),
    y: y.map((count) => (count * share) / (sorted.length * step)),
  };
}

/** Each draw shared between the two grid points beside it. */
function binned(sorted: Float64Array, start: number, step: number): Float64Array {
  const counts = new Float64Array(DENSITY_POINTS);
  for (const value of sorted) {
    const place = (value - start) / step;
    const left = Math.floor(place);
    if (left < 0 || left >= DENSITY_POINTS - 1) continue;
    counts[left]! += 1 - (place - left);
    counts[left + 1]! += place - left;
  }
  return counts;
}

/** Counts smoothed with a normal kernel; `width` is its standard deviation in grid steps. */
function smoothed(counts: Float64Array, width: number): Float64Array {
  const reach = Math.max(1, Math.ceil(4 * width));
  const kernel = Float64Array.from({ length: 2 * reach + 1 }, (_, k) =>
    Math.exp(-0.5 * ((k - reach) / width) ** 2),
  );
  const total = kernel.reduce((a, b) => a + b, 0);
  return counts.map((_, i) => {
    let sum = 0;
    for (let k = -reach; k <= reach; k++) sum += (counts[i + k] ?? 0) * kernel[k + reach]!;
    return sum / total;
  });
}
