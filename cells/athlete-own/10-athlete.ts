import {
  athleteField,
  bodyMassField,
  paceChoice,
  prose,
  sportChoice,
} from '#hourline';

export const code = athleteField('');
export const sport = sportChoice('cycling');
export const bodyMass = bodyMassField(null);
export const pace = paceChoice('min/km');

export default [
  prose`## The athlete`,
  code,
  sport,
  bodyMass,
  pace,
];
