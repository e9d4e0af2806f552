import { errorsFrom, prose, usualErrors } from '#hourline';
import { meter } from './17-meter.ts';
import * as own from './18-errors.ts';

export const error = errorsFrom(
  usualErrors(meter.value),
  own,
);

const spread = Math.hypot(
  error.repeatability,
  4 * error.repeatabilityShare,
);

export default prose`
  So a reading of 4 mmol/L repeats to ±${spread.toFixed(2)}
  mmol/L (one standard deviation), and all readings of a test
  are off together by ${(100 * error.gain).toFixed(0)} % or
  so.`;
