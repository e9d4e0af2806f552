import {
  errorSlider,
  prose,
  scaleChoice,
  usualErrors,
} from '#hourline';
import { meter } from './15-protocol.ts';

const usual = usualErrors(meter.value);
export const intensityScale = errorSlider(
  'intensityScale',
  usual,
);
export const intensityJitter = errorSlider(
  'intensityJitter',
  usual,
);
export const scale = scaleChoice('device');

export default [
  prose`The machine is not exact either.`,
  [intensityScale, intensityJitter, scale],
];
