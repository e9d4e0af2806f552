import {
  effortChoice,
  lastStageChoice,
  meterChoice,
  numberField,
  prose,
} from '#hourline';

export const stageMinutes = numberField({
  label: 'Stage length',
  unit: 'min',
  min: 0.5,
  max: 30,
  value: null,
  help: 'Empty: the usual duration in the table.',
});
export const effort = effortChoice('unknown');
export const lastStage = lastStageChoice('credited');
export const meter = meterChoice('handheld');

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
];
