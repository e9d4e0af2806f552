import { methodChoice, prose, term } from '#hourline';

export const lt1 = methodChoice('LT1', 'baseline-plus-0.5');
export const lt2 = methodChoice(
  'LT2',
  'minimum-equivalent-plus-1.5',
);

export default [
  prose`
  ## Choose one of each
  Training needs two numbers, so choose one method for each
  threshold, for its claim and not for its figure.

  - **First threshold (LT1):** below it lactate stays at its
    baseline; hours are possible.
  - **Second threshold (LT2):** above it lactate keeps rising;
    the effort has an end in sight.

  The yardstick for the second is the
  ${term('mlss', 'maximal lactate steady state')}: the hardest
  effort of half an hour at which lactate still levels off.
  Only rides or runs at constant intensity measure it; every
  method here estimates it.

  The two set at first are our choice: both count from the
  athlete's own lactate, not from a level for everybody, and
  neither needs a test to exhaustion.`,
  lt1,
  lt2,
];
