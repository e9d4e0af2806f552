import { errorSlider, numberField, prose, scaleChoice, slider, usualErrors } from '#hourline';
import { meter } from './10-athlete.ts';

const usual = usualErrors(meter.value);
export const repeatability = errorSlider('repeatability', usual);
export const gain = errorSlider('gain', usual);
export const offset = errorSlider('offset', usual);
export const rounding = errorSlider('rounding', usual);
export const delay = errorSlider('delay', usual);
export const contamination = errorSlider('contamination', usual);
export const intensityScale = errorSlider('intensityScale', usual);
export const intensityJitter = errorSlider('intensityJitter', usual);
export const draws = slider({ label: 'Draws', min: 200, max: 10_000, step: 100, value: 1000 });
export const seed = numberField({ label: 'Seed', min: 0, max: 999_999, value: 1 });
export const scale = scaleChoice('device');

export default prose`
  ## What may be off
  No reading is exact. Set what you know of your meter and your hands; the figures follow. Calibration is
  one error for the whole test: it moves all readings together.`;
