import {
  figures,
  prose,
  sampleThresholds,
  showMethods,
  steadyStateFigure,
  usualErrors,
} from '#hourline';
import { meter } from './10-athlete.ts';
import { protocol } from './15-table.ts';
import {
  display,
  heartRates,
  readings,
} from './30-readings.ts';

const sampling = sampleThresholds(readings, {
  error: usualErrors(meter.value),
  heartRates,
  draws: 2000,
  seed: 1,
  intensityScale: 'device',
});
const study = { readings, options: {}, sampling, display };

export default [
  prose`## The estimate`,
  figures(steadyStateFigure(sampling, protocol, display)),
  showMethods(study, protocol),
];
