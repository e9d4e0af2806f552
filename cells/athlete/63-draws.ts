import {
  drawsSlider,
  prose,
  seedField,
  term,
} from '#hourline';

export const draws = drawsSlider(1000);
export const seed = seedField(1);

export default [
  prose`
    The figures come from many simulated repeats of this
    test, the ${term('draw', 'draws')}; the same
    ${term('seed')} gives the same draws.`,
  [draws, seed],
];
