import {
  baselineChoice,
  modelChoice,
  prose,
  term,
} from '#hourline';

export const model = modelChoice('exponential');
export const baseline = baselineChoice('lowest-two');

export default [
  prose`
    ## How to read the curve
    Two choices come before any threshold: which curve to draw
    through the readings, and what counts as the athlete's
    ${term('baseline')}. Make them before the test and keep
    them, or the wish will choose for you.`,
  model,
  baseline,
];
