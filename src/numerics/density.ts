import { writeRanked } from './selection.ts';

/** Points of a density curve. */
export const DENSITY_POINTS: i32 = 80;

/** Behind their heights `writeDensity` writes where the first of them lies. */
export const DENSITY_START: i32 = DENSITY_POINTS;
/** And then how far apart they are. */
export const DENSITY_STEP: i32 = DENSITY_POINTS + 1;
const COUNTS: i32 = DENSITY_POINTS + 2;
const WEIGHTS: i32 = COUNTS + DENSITY_POINTS;
/** Numbers that it writes, with those that it needs on the way. */
export const DENSITY_ROOM: i32 = WEIGHTS + DENSITY_POINTS;

/** Order statistics that a density curve begins with. */
export const DENSITY_RANKS: i32 = 5;

/** Values that differ by less than this share of their size differ by rounding only. */
const ROUNDING: number = 1e-12;

/**
 * Smoothed density of the first `count` values on an even grid; false where they do not spread. Changes their order.
 *
 * Model     counts on the grid (linear binning), smoothed with a normal kernel
 * Shape     `ranks` is room for `DENSITY_RANKS`, `bins` for `RANK_BINS`, `out` for `DENSITY_ROOM`: first come values a step of
 *           the grid at each point
 * Source    Silverman 1986, Density Estimation, bandwidth 0.9·min(SD, IQR/1.34)·n^(−1/5) (from memory)
 * Error     the outermost 0.2 % of values at either end are not drawn
 */
export function writeDensity(
  values: Float64Array,
  count: i32,
  sd: number,
  ranks: Int32Array,
  bins: Int32Array,
  out: Float64Array,
): boolean {
  ranks[0] = rankAt(0.002, count);
  ranks[1] = rankAt(0.25, count);
  ranks[2] = rankAt(0.5, count);
  ranks[3] = rankAt(0.75, count);
  ranks[4] = rankAt(0.998, count);
  writeRanked(values, count, ranks, bins, out);
  const least = out[0]!;
  const lower = out[1]!;
  const middle = out[2]!;
  const upper = out[3]!;
  const greatest = out[4]!;
  const spread = upper > lower ? Math.min(sd, (upper - lower) / 1.34) : sd;
  if (!(spread > ROUNDING * Math.abs(middle))) return false;
  const n: number = count;
  const bandwidth = 0.9 * spread * n ** -0.2;
  const start = least - 3 * bandwidth;
  const step = (greatest + 3 * bandwidth - start) / (DENSITY_POINTS - 1);
  out[DENSITY_START] = start;
  out[DENSITY_STEP] = step;
  bin(values, count, out);
  smooth(bandwidth / step, out);
  return true;
}

/** Rank of the value with this share of all below it, from 1. */
function rankAt(share: number, count: i32): i32 {
  const n: number = count;
  return Math.min(n, Math.floor(share * n) + 1) as i32;
}

/** Each value shared between the two grid points beside it. */
function bin(values: Float64Array, count: i32, out: Float64Array): void {
  const start = out[DENSITY_START]!;
  const step = out[DENSITY_STEP]!;
  for (let i = 0; i < DENSITY_POINTS; i++) out[COUNTS + i] = 0;
  for (let i = 0; i < count; i++) {
    const place = (values[i]! - start) / step;
    const whole = Math.floor(place);
    if (whole < 0 || whole >= DENSITY_POINTS - 1) continue;
    const left = COUNTS + (whole as i32);
    out[left] = out[left]! + (1 - (place - whole));
    out[left + 1] = out[left + 1]! + (place - whole);
  }
}

/** Counts smoothed with a normal kernel; `width` is its standard deviation in grid steps. */
function smooth(width: number, out: Float64Array): void {
  const reach = Math.min(DENSITY_POINTS - 1, Math.max(1, Math.ceil(4 * width))) as i32;
  let total: number = 0;
  for (let k = 0; k <= reach; k++) {
    const gap: number = k;
    const weight = Math.exp(-0.5 * (gap / width) ** 2);
    out[WEIGHTS + k] = weight;
    total += k === 0 ? weight : 2 * weight;
  }
  for (let i = 0; i < DENSITY_POINTS; i++) {
    const first = i > reach ? i - reach : 0;
    const last = i + reach < DENSITY_POINTS ? i + reach : DENSITY_POINTS - 1;
    let sum: number = 0;
    for (let j = first; j <= last; j++) sum += out[COUNTS + j]! * out[WEIGHTS + (j > i ? j - i : i - j)]!;
    out[i] = sum / total;
  }
}
