import {
  athleteField,
  bodyMassField,
  prose,
  sportChoice,
} from '#hourline';

export const code = athleteField('R-01');
export const sport = sportChoice('running');
export const bodyMass = bodyMassField(66);

export default [prose`## The athlete`, code, sport, bodyMass];
