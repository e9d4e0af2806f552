import { prose, seedField, slider, term } from '#hourline';

export const athletes = slider({
  label: 'Athletes in the class',
  min: 20,
  max: 400,
  step: 20,
  value: 200,
  about: {
    says: `More athletes tell a method’s bias and scatter
      more exactly, and take longer.`,
    source: 'our rule',
  },
});
export const seed = seedField(1);

export default [
  prose`
    ## A class of athletes
    One athlete may suit a method by luck. So draw many:
    ${term('uptake')} from 42 to 75 ml/min/kg,
    ${term('glycolytic')}, exchange and endurance of pain each
    spread about a middle. Each does your test once, start and
    increment fitted to what the athlete can do.`,
  [athletes, seed],
];
