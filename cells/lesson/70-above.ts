import {
  prose,
  repLengthSlider,
  repRestSlider,
} from '#hourline';

export const repMinutes = repLengthSlider(10);
export const restMinutes = repRestSlider(2);

export default [
  prose`
    ## 4. Why does too hard feel manageable at first?
    The costly mistake: intervals meant for the threshold,
    done a little above it. The same session at four
    intensities. From which minute on could you tell them
    apart?`,
  [repMinutes, restMinutes],
];
