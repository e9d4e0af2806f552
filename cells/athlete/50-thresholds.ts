import {
  folded,
  prose,
  showThresholds,
  term,
  thresholdCautions,
  thresholdTable,
} from '#hourline';
import { display, readings, test } from './25-readings.ts';
import { curve } from './40-curve.ts';
import { sampling } from './65-sensitivity.ts';
import { second } from './72-chosen.ts';

const lt2 = second?.intensity ?? null;

export default [
  prose`
    ## The thresholds, by every method
    The ${term('lt1', 'first threshold')} is where lactate
    leaves its baseline, the ${term('lt2', 'second')} where it
    begins to run away. Each method finds its own spot; a
    method that has no business with this test says so instead
    of guessing. The bars, each an
    ${term('interval', 'interval')}, come from the errors set
    further down.`,
  showThresholds(readings, curve, sampling, { display }),
  thresholdTable(sampling, { display, test, lt2 }),
  folded(
    'To mind with single figures',
    prose`${thresholdCautions(sampling)}`,
  ),
];
