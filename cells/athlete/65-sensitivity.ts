import {
  prose,
  sampleThresholds,
  showSensitivity,
} from '#hourline';
import {
  display,
  heartRates,
  readings,
} from './25-readings.ts';
import { reading } from './40-curve.ts';
import { scale } from './61-machine.ts';
import { error } from './62-errors.ts';
import { draws, seed } from './63-draws.ts';

export const sampling = sampleThresholds(readings, {
  error,
  options: reading,
  heartRates,
  draws: draws.value,
  seed: seed.value ?? 1,
  intensityScale: scale.value,
});

export default [
  prose`
    ## How far can each figure be trusted?
    Each ridge shows where a method would have landed had this
    test's errors fallen otherwise.`,
  showSensitivity(sampling, readings, { display }),
];
