import type { BaselineRule, Readings } from './stepTest.ts';

/** How each baseline is named where a result that hangs on it is shown. */
export const BASELINE_NAMES: Record<BaselineRule, string> = {
  rest: 'lactate at rest',
  first: 'lactate of the first stage',
  lowest: 'lowest lactate of all stages',
  'lowest-two': 'mean of the two lowest neighbouring stages',
};

/**
 * Baseline lactate by one of four definitions, mmol/L; NaN for `rest` without a rest sample.
 *
 * The lowest of several equally noisy readings lies below their true level: 0.56 standard deviations for two
 * readings, 0.85 for three, 1.03 for four (means of normal order statistics), and so brings every threshold
 * counted from it forward. The mean of the two lowest neighbours does so less.
 *
 * Allocates nothing: `y` is one draw, and the rest lactate is read from `readings` at each call.
 */
export function baselineLactate(rule: BaselineRule, y: Float64Array, readings: Readings): number {
  switch (rule) {
    case 'rest':
      return readings.restLactate ?? Number.NaN;
    case 'first':
      return y[0]!;
    case 'lowest':
      return lowest(y);
    case 'lowest-two':
      return lowestTwo(y);
  }
}

// Before a sustained rise and over all stages are the same minimum: what follows a sustained rise is higher.
function lowest(y: Float64Array): number {
  let least = y[0]!;
  for (let i = 1; i < y.length; i++) least = Math.min(least, y[i]!);
  return least;
}

function lowestTwo(y: Float64Array): number {
  if (y.length < 2) return y[0]!;
  let least = Infinity;
  for (let i = 1; i < y.length; i++) least = Math.min(least, (y[i - 1]! + y[i]!) / 2);
  return least;
}
