import {
  checkTest,
  displayOf,
  heartRatesOf,
  prose,
  readStepTest,
  sayWhoseData,
  showChecks,
  usableReadings,
} from '#hourline';
import * as about from './10-athlete.ts';
import { protocol } from './15-table.ts';
import { stages } from './20-stages.ts';

const test = readStepTest(stages.value, {
  protocol,
  sport: about.sport.value,
  bodyMass: about.bodyMass.value,
  stageMinutes: about.stageMinutes.value,
});
export const readings = usableReadings(test);
export const heartRates = heartRatesOf(test);
export const display = displayOf(test, readings);

export default [
  prose`
    ## Was it a good test?
    ${sayWhoseData(stages)}
    ${readings.x.length} stages give a point.
    ${[...readings.notes, ...test.notes].join(' ')}`,
  showChecks(checkTest(test), test),
];
