import { prose, slider, toggle } from '#hourline';

export const stay = slider({
  label: 'Chance of staying at or under',
  unit: '%',
  min: 50,
  max: 99,
  step: 1,
  value: 90,
  help: 'Higher is more careful. Nine in ten is our rule.',
});
export const meter = toggle({
  label: 'With a lactate meter',
  value: true,
});

export default [
  prose`
    ## The next threshold session
    From the test with its error and the last sessions. It
    stays at or under the second threshold with the chance you
    ask for.`,
  [stay, meter],
];
