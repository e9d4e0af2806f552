import {
  anchorChoice,
  baselineChoice,
  prose,
  slopeField,
} from '#hourline';

export const baseline = baselineChoice('lowest-two');
export const anchor = anchorChoice('previous-stage');
export const slope = slopeField(null);

export default [
  prose`
    ## Choices that papers leave open
    The same method with another baseline is another method.
    Move these and see which answers follow.`,
  [baseline, anchor, slope],
];
