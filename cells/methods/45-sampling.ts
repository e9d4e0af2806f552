import {
  EVERY_METHOD,
  HANDHELD,
  numbersIn,
  prose,
  sampleThresholds,
  term,
} from '#hourline';
import { heartRates, readings } from './25-readings.ts';
import { leaves, steep } from './30-by-eye.ts';
import * as choices from './35-choices.ts';

export const options = {
  baseline: choices.baseline.value,
  anchor: choices.anchor.value,
  slope: choices.slope.value,
  visual: {
    LT1: numbersIn(leaves.value),
    LT2: numbersIn(steep.value),
  },
};
export const sampling = sampleThresholds(readings, {
  methods: EVERY_METHOD,
  options,
  error: HANDHELD,
  heartRates,
  draws: 1000,
  seed: 1,
  intensityScale: 'device',
});

export default prose`
  Every ${term('interval', 'interval')} on this page comes
  from ${sampling.draws} simulated repeats of the test with
  the errors of a handheld meter.`;
