import { lessonAnswer, showCalibration } from '#hourline';
import { test } from './20-test.ts';
import * as set from './50-calibration.ts';

export default [
  showCalibration(test, {
    gain: set.factor.value / 100,
    offset: set.added.value,
    method: set.looked.value,
  }),
  lessonAnswer('calibration'),
];
