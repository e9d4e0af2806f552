import {
  effortChoice,
  lastStageChoice,
  meterChoice,
  paceChoice,
  prose,
  stageMinutesField,
} from '#hourline';
import { sport } from './10-athlete.ts';

export const stageMinutes = stageMinutesField(null);
export const effort = effortChoice('unknown');
export const lastStage = lastStageChoice('credited');
export const meter = meterChoice('handheld');
export const pace =
  sport.value === 'running' ? paceChoice('min/km') : null;

export default [
  prose`
    ## How the test was done
    Thresholds belong to a protocol. Compare only tests with
    the same stages, steps, pauses, meter, finger or ear, and
    the same machine.`,
  stageMinutes,
  effort,
  lastStage,
  meter,
  pace,
];
