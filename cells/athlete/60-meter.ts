import { errorSlider, prose, usualErrors } from '#hourline';
import { meter } from './15-protocol.ts';

const usual = usualErrors(meter.value);
export const repeatability = errorSlider(
  'repeatability',
  usual,
);
export const repeatabilityShare = errorSlider(
  'repeatabilityShare',
  usual,
);
export const gain = errorSlider('gain', usual);
export const offset = errorSlider('offset', usual);
export const rounding = errorSlider('rounding', usual);

export default [
  prose`
    ## What may be off
    No reading is exact. Set what you know of your meter; the
    figures follow. Calibration is one error for the whole
    test: it moves all readings together.`,
  [repeatability, repeatabilityShare, gain, offset, rounding],
];
