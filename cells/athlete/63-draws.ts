import { numberField, prose, slider } from '#hourline';

export const draws = slider({
  label: 'Draws',
  min: 200,
  max: 10_000,
  step: 100,
  value: 1000,
});
export const seed = numberField({
  label: 'Seed',
  min: 0,
  max: 999_999,
  value: 1,
});

export default [
  prose`
    The figures come from many simulated repeats of this
    test, the draws; the same seed gives the same draws.`,
  [draws, seed],
];
