import { anyMethodChoice, prose, slider } from '#hourline';

export const factor = slider({
  label: 'The meter reads too high by',
  unit: '%',
  min: -30,
  max: 30,
  step: 1,
  value: 15,
});
export const added = slider({
  label: 'And by a fixed amount of',
  unit: 'mmol/L',
  min: -0.4,
  max: 0.4,
  step: 0.1,
  value: 0,
});
export const looked = anyMethodChoice(
  'Method to look at',
  'dmax',
);

export default [
  prose`
    ## 2. Why is Dmax the same after a calibration error?
    A meter that was calibrated badly reads every drop too
    high in the same proportion. Look at Dmax, then at a
    fixed value.`,
  [factor, added, looked],
];
