import { folded, prose, simulatedStages } from '#hourline';
import { test } from './20-test.ts';

export const stages = simulatedStages(test);

export default [
  prose`
    ## 3. What does one bad reading do?
    A bead of sweat in a single sample. Take a reading in the
    picture below and drag it up (or reach it with the
    tabulator key and press the arrow keys). Which methods go
    along? Try one in the middle, the first, and the last.`,
  folded('The same readings as a table', stages),
];
