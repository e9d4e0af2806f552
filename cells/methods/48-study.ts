import {
  fitCurve,
  onlyMethods,
  prose,
  showThresholds,
  switchedOn,
} from '#hourline';
import { display, readings } from './25-readings.ts';
import * as first from './40-first.ts';
import * as second from './41-second.ts';
import * as more from './42-second-more.ts';
import { options, sampling } from './45-sampling.ts';

const on = switchedOn(first, second, more);
export const study = {
  readings,
  options,
  sampling,
  display,
  on,
};
export const chosen = onlyMethods(sampling, on);

const curve = fitCurve(readings, { model: 'exponential' });

export default [
  prose`
    ## All that are switched on
    One answer a row, each let down from the curve. Marks
    beside the curve belong to methods that read another
    one.`,
  showThresholds(readings, curve, chosen, { display }),
];
