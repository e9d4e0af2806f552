import {
  bodyMassField,
  meterChoice,
  prose,
  sportChoice,
  stageMinutesField,
} from '#hourline';

export const sport = sportChoice('cycling');
export const bodyMass = bodyMassField(72);
export const stageMinutes = stageMinutesField(null);
export const meter = meterChoice('handheld');

export default [
  prose`## The test`,
  [sport, bodyMass, stageMinutes, meter],
];
