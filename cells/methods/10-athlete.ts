import {
  bodyMassField,
  effortChoice,
  prose,
  sportChoice,
  stageMinutesField,
} from '#hourline';

export const sport = sportChoice('cycling');
export const bodyMass = bodyMassField(70);
export const stageMinutes = stageMinutesField(null);
export const effort = effortChoice('yes');

export default [
  prose`## The test`,
  [sport, bodyMass, stageMinutes, effort],
];
