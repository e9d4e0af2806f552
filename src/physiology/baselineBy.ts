// The definitions of a baseline as numbers, for what is compiled.

/** Lactate at rest. */
export const REST: i32 = 0;
/** Lactate of the first stage. */
export const FIRST: i32 = 1;
/** The lowest lactate. */
export const LOWEST: i32 = 2;
/** The mean of the two lowest neighbours. */
export const LOWEST_TWO: i32 = 3;

/**
 * Baseline lactate by one of four definitions, mmol/L; NaN for `rest` without a rest sample.
 *
 * The lowest of several equally noisy readings lies below their true level: 0.56 standard deviations for two
 * readings, 0.85 for three, 1.03 for four (means of normal order statistics), and so brings every threshold
 * counted from it forward. The mean of the two lowest neighbours does so less.
 */
export function baselineBy(rule: i32, y: Float64Array, rest: number): number {
  if (rule === REST) return rest;
  if (rule === FIRST) return y[0]!;
  return rule === LOWEST ? lowest(y) : lowestTwo(y);
}

// Before a sustained rise and over all stages are the same minimum: what follows a sustained rise is higher.
function lowest(y: Float64Array): number {
  let least = y[0]!;
  for (let i = 1; i < y.length; i++) least = Math.min(least, y[i]!);
  return least;
}

function lowestTwo(y: Float64Array): number {
  if (y.length < 2) return y[0]!;
  let least: number = Infinity;
  for (let i = 1; i < y.length; i++) least = Math.min(least, (y[i - 1]! + y[i]!) / 2);
  return least;
}
