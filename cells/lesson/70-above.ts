import { prose, slider } from '#hourline';

export const repMinutes = slider({
  label: 'Each lasts',
  unit: 'min',
  min: 3,
  max: 30,
  step: 1,
  value: 10,
});
export const restMinutes = slider({
  label: 'Rest between',
  unit: 'min',
  min: 0,
  max: 5,
  step: 0.5,
  value: 2,
});

export default [
  prose`
    ## 4. Why does too hard feel manageable at first?
    The costly mistake: intervals meant for the threshold,
    done a little above it. The same session at four
    intensities. Until which minute could you tell them
    apart?`,
  [repMinutes, restMinutes],
];
