import {
  prose,
  sampleThresholds,
  showRefined,
  showSensitivity,
  switchedErrors,
  term,
} from '#hourline';
import {
  display,
  heartRates,
  readings,
} from './25-readings.ts';
import { reading } from './40-curve.ts';
import { gain, repeatability } from './60-meter.ts';
import { scale } from './61-machine.ts';
import { error } from './62-errors.ts';
import { draws, seed } from './63-draws.ts';
import * as switches from './64-switches.ts';

export const given = {
  error: switchedErrors(error, switches),
  options: reading,
  seed: seed.value ?? 1,
  intensityScale: scale.value,
};
export const sampling = sampleThresholds(readings, {
  ...given,
  heartRates,
  draws: draws.value,
});

export default [
  prose`
    ## How far can each figure be trusted?
    Each ${term('ridge')} shows where a method would have
    landed had this test's errors fallen otherwise.`,
  [repeatability, gain],
  showSensitivity(sampling, readings, { display }),
  showRefined(readings, { ...given, display, digits: 1 }),
  showRefined(readings, { ...given, display, digits: 2 }),
];
