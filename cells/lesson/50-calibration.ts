import {
  addedErrorSlider,
  anyMethodChoice,
  proportionalErrorSlider,
  prose,
} from '#hourline';

export const factor = proportionalErrorSlider(15);
export const added = addedErrorSlider(0);
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
