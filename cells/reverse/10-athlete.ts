import {
  meterChoice,
  numberField,
  prose,
  sportChoice,
} from '#hourline';

export const sport = sportChoice('cycling');
export const bodyMass = numberField({
  label: 'Body mass',
  unit: 'kg',
  min: 20,
  max: 250,
  value: 72,
});
export const stageMinutes = numberField({
  label: 'Stage length',
  unit: 'min',
  min: 0.5,
  max: 30,
  value: 4,
});
export const meter = meterChoice('handheld');

export default [
  prose`## The test`,
  [sport, bodyMass, stageMinutes, meter],
];
