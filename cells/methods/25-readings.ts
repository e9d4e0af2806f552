import {
  displayOf,
  heartRatesOf,
  prose,
  readStepTest,
  recoveryIn,
  usableReadings,
  wentToExhaustion,
} from '#hourline';
import * as about from './10-athlete.ts';
import { stages } from './20-stages.ts';
import { recovery } from './22-recovery.ts';

const table = readStepTest(stages.value, {
  sport: about.sport.value,
  bodyMass: about.bodyMass.value,
  stageMinutes: about.stageMinutes.value,
});
const after = recoveryIn(recovery.value) ?? table.recovery;
const test = { ...table, recovery: after ?? null };

export const readings = usableReadings(test, {
  toExhaustion: wentToExhaustion(about.effort.value),
});
export const heartRates = heartRatesOf(test);
export const display = displayOf(test, readings);

export default prose`
  ${readings.x.length} of ${test.stages.length} stages give a
  point. ${[...readings.notes, ...test.notes].join(' ')}`;
