import {
  athleteField,
  bodyMassField,
  prose,
  sportChoice,
} from '#hourline';

export const code = athleteField('C-01');
export const sport = sportChoice('cycling');
export const bodyMass = bodyMassField(70);

export default [prose`## The athlete`, code, sport, bodyMass];
