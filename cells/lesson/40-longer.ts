import { anyMethodChoice, prose } from '#hourline';

export const follow = anyMethodChoice(
  'Method to follow',
  'fixed-4.0',
);

export default [
  prose`
    ## 1. Why does 4 mmol/L move when stages get longer?
    The same athlete, the same legs, tests that differ in the
    length of their stages alone. Follow 4 mmol/L, then
    follow Dmax.`,
  follow,
];
