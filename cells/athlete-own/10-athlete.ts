import {
  numberField,
  paceChoice,
  prose,
  sportChoice,
  textField,
} from '#hourline';

export const code = textField({
  label: 'Athlete',
  value: '',
  help: 'A code is safer than a name.',
});
export const sport = sportChoice('cycling');
export const bodyMass = numberField({
  label: 'Body mass',
  unit: 'kg',
  min: 20,
  max: 250,
  value: null,
});
export const pace = paceChoice('min/km');

export default [
  prose`## The athlete`,
  code,
  sport,
  bodyMass,
  pace,
];
