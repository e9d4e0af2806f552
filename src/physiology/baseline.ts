import { baselineBy, FIRST, LOWEST, LOWEST_TWO, REST } from './baselineBy.ts';
import type { BaselineRule, Readings } from './stepTest.ts';

/** How each baseline is named where a result that hangs on it is shown. */
export const BASELINE_NAMES: Record<BaselineRule, string> = {
  rest: 'lactate at rest',
  first: 'lactate of the first stage',
  lowest: 'lowest lactate of all stages',
  'lowest-two': 'mean of the two lowest neighbouring stages',
};

/** The rules as numbers, for estimators. */
export const BASELINE_NUMBERS: Record<BaselineRule, number> = {
  rest: REST,
  first: FIRST,
  lowest: LOWEST,
  'lowest-two': LOWEST_TWO,
};

/** Baseline lactate by one of four definitions, mmol/L; NaN for `rest` without a rest sample (baselineBy.ts). */
export const baselineLactate = (rule: BaselineRule, y: Float64Array, readings: Readings): number =>
  baselineBy(BASELINE_NUMBERS[rule], y, readings.restLactate ?? Number.NaN);
