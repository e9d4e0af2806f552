import {
  boutsTable,
  displayOf,
  prose,
  readBouts,
  readingsOf,
  usualErrors,
} from '#hourline';
import * as about from './10-athlete.ts';
import { bouts } from './20-bouts.ts';

const test = readBouts(bouts.value, {
  sport: about.sport.value,
  bodyMass: about.bodyMass.value,
});
export const error = usualErrors(about.meter.value);
export const readings = readingsOf(test);
export const display = displayOf(test, readings);

export default [
  prose`
    ## Which bouts were steady?
    The chance is that of the true rise being 1.0 mmol/L or
    less, given how well the meter repeats. Near one half the
    verdict is a coin toss: repeat that bout.
    ${test.notes.join(' ')}`,
  boutsTable(readings, { display, error }),
];
