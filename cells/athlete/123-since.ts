import { numberField, prose, slider } from '#hourline';

const days = { unit: 'days', min: 0, max: 3650, value: 0 };
export const daysSince = numberField({
  label: 'Since the tests',
  ...days,
});
export const daysOff = numberField({
  label: 'Of these without training, up to today',
  ...days,
});
export const allowance = slider({
  label: 'Taken off for heat, hills or no drink',
  unit: '%',
  min: 0,
  max: 10,
  step: 1,
  value: 0,
});

export default [
  prose`
    Time since the tests and efforts, a break if there was
    one, and what the hour will be like.`,
  [daysSince, daysOff, allowance],
];
