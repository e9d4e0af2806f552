import { type NumberField, numberField, type Slider, slider } from '../view/controls.ts';

/** How many simulated repeats of the test the figures come from. */
export const drawsSlider = (value: number): Slider =>
  slider({
    label: 'Draws',
    min: 200,
    max: 10_000,
    step: 100,
    value,
    about: {
      says: 'Simulated repeats of the test: more of them make the ends of each interval steadier, and take longer.',
      source: 'JCGM 101:2008; 1000 to start with is our rule',
    },
  });

/** Where the random numbers begin. */
export const seedField = (value: number): NumberField =>
  numberField({
    label: 'Seed',
    min: 0,
    max: 999_999,
    value,
    about: {
      says: 'The same seed gives the same draws, so figures can be repeated; another one shows how much of them is chance.',
      source: 'our rule',
    },
  });
