import {
  athleteField,
  bodyMassField,
  paceChoice,
  prose,
  sportChoice,
} from '#hourline';

export const code = athleteField('R-01');
export const sport = sportChoice('running');
export const bodyMass = bodyMassField(66);
export const pace = paceChoice('min/km');

export default [
  prose`## The athlete`,
  code,
  sport,
  bodyMass,
  pace,
];
