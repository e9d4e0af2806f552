import {
  athleteField,
  bodyMassField,
  paceChoice,
  prose,
  sportChoice,
} from '#hourline';

export const code = athleteField('C-01');
export const sport = sportChoice('cycling');
export const bodyMass = bodyMassField(70);
export const pace = paceChoice('min/km');

export default [
  prose`## The athlete`,
  code,
  sport,
  bodyMass,
  pace,
];
