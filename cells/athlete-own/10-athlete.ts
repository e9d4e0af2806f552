import {
  athleteField,
  bodyMassField,
  prose,
  sportChoice,
} from '#hourline';

export const code = athleteField('');
export const sport = sportChoice('cycling');
export const bodyMass = bodyMassField(null);

export default [prose`## The athlete`, code, sport, bodyMass];
