import { errorSlider, prose, usualErrors } from '#hourline';
import { meter } from './15-protocol.ts';

const usual = usualErrors(meter.value);
export const delay = errorSlider('delay', usual);
export const contamination = errorSlider(
  'contamination',
  usual,
);
export const contaminationSize = errorSlider(
  'contaminationSize',
  usual,
);

export default [
  prose`And of how the samples were taken:`,
  [delay, contamination, contaminationSize],
];
