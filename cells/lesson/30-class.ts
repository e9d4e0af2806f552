import { numberField, prose, slider } from '#hourline';

export const athletes = slider({
  label: 'Athletes in the class',
  min: 20,
  max: 400,
  step: 20,
  value: 200,
});
export const seed = numberField({
  label: 'Seed',
  value: 1,
  min: 0,
  max: 1_000_000,
  help: 'The same seed gives the same class.',
});

export default [
  prose`
    ## A class of athletes
    One athlete may suit a method by luck. So draw many:
    maximal oxygen uptake from 42 to 75 ml/min/kg, glycolytic
    rate, exchange and endurance of pain each spread about a
    middle. Each does your test once, start and increment
    fitted to what the athlete can do.`,
  [athletes, seed],
];
