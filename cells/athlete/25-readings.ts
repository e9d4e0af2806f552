import {
  displayOf,
  heartRatesOf,
  prose,
  readStepTest,
  recoveryIn,
  usableReadings,
  wentToExhaustion,
} from '#hourline';
import { bodyMass, sport } from './10-athlete.ts';
import {
  effort,
  lastStage,
  pace,
  stageMinutes,
} from './15-protocol.ts';
import { stages } from './20-stages.ts';
import { recovery } from './22-recovery.ts';

const table = readStepTest(stages.value, {
  sport: sport.value,
  bodyMass: bodyMass.value,
  stageMinutes: stageMinutes.value,
});
const after = recoveryIn(recovery.value) ?? table.recovery;
export const test = { ...table, recovery: after ?? null };
export const readings = usableReadings(test, {
  lastStage: lastStage.value,
  toExhaustion: wentToExhaustion(effort.value),
});
export const heartRates = heartRatesOf(test);
export const display = displayOf(test, readings, pace?.value);

const rest =
  test.restLactate === null
    ? 'There is no sample at rest.'
    : 'The sample at rest is kept apart.';
export default prose`
  ${readings.x.length} of ${test.stages.length} stages give a
  point for the curve. ${rest}
  ${[...readings.notes, ...test.notes].join(' ')}`;
