import { errorSlider, prose, usualErrors } from '#hourline';
import { meter } from './17-meter.ts';

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
export const contamination = errorSlider(
  'contamination',
  usual,
);

export default [
  prose`Or one of your own:`,
  [repeatability, repeatabilityShare, gain, contamination],
];
