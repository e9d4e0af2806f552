import {
  figures,
  prose,
  sampleThresholds,
  showMethods,
  steadyStateFigure,
} from '#hourline';
import { display, error, readings } from './30-readings.ts';

const sampling = sampleThresholds(readings, {
  error,
  draws: 2000,
  seed: 1,
  intensityScale: 'device',
});
const study = { readings, options: {}, sampling, display };
const id = 'steady-state-bouts';

export default [
  prose`## The estimate`,
  figures(steadyStateFigure(sampling, id, display)),
  showMethods(study, id),
];
