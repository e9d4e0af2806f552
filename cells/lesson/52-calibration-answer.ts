import { folded, prose, showCalibration } from '#hourline';
import { test } from './20-test.ts';
import * as set from './50-calibration.ts';

export default [
  showCalibration(test, {
    gain: set.factor.value / 100,
    offset: set.added.value,
    method: set.looked.value,
  }),
  folded(
    'Answer',
    prose`
      A calibration error stretches the picture upward, curve
      and chord alike. The point of the curve that is
      farthest below its chord stays above the same
      intensity: there the curve is as steep as the chord,
      and both slopes are stretched by the same factor. A
      fixed amount lifts both and changes no slope.

      A fixed value does not stretch along: 4 mmol/L on a
      meter that reads 15 % high are 3.5 in truth. A rise
      above the athlete's own baseline is free of the fixed
      amount, but not of the factor.

      The catch: Dmax cares about nothing else so much as
      where the test begins and ends. Move the start above
      and watch it go.`,
  ),
];
