import {
  errorSlider,
  numberField,
  prose,
  scaleChoice,
  slider,
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
    The machine is not exact either. The figures come from
    many invented repeats of this one test, the draws; the
    same seed gives the same draws.`,
  [intensityScale, intensityJitter, scale, draws, seed],
];
