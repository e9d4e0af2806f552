import {
  allowanceSlider,
  daysOffField,
  daysSinceField,
  prose,
} from '#hourline';

export const daysSince = daysSinceField();
export const daysOff = daysOffField();
export const allowance = allowanceSlider();

export default [
  prose`
    Time since the tests and efforts, a break if there was
    one, and what the hour will be like.`,
  [daysSince, daysOff, allowance],
];
