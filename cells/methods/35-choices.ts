import {
  baselineChoice,
  choice,
  numberField,
  prose,
} from '#hourline';

export const baseline = baselineChoice('lowest-two');
export const anchor = choice({
  label: 'Modified Dmax counts the first rise over',
  value: 'previous-stage',
  options: [
    { value: 'previous-stage', label: 'the stage before' },
    { value: 'baseline', label: 'the baseline' },
  ],
  help: 'The same paper is cited for both.',
});
export const slope = numberField({
  label: 'Slope for the fixed slope',
  unit: 'mmol/L per W or km/h',
  min: 0,
  step: 0.01,
  value: null,
  help: 'Published for running only: 1.26 mmol/L per km/h.',
});

export default [
  prose`
    ## Choices that papers leave open
    The same method with another baseline is another method.
    Move these and see which answers follow.`,
  [baseline, anchor, slope],
];
