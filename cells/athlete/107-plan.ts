import {
  prose,
  staySlider,
  withMeterToggle,
} from '#hourline';

export const stay = staySlider(90);
export const meter = withMeterToggle(true);

export default [
  prose`
    ## The next threshold session
    From the test with its error and the last sessions. It
    stays at or under the second threshold with the chance you
    ask for.`,
  [stay, meter],
];
