import { prose, showMethods } from '#hourline';
import { derivative } from './42-second-more.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## Where the curve bends most
    A smooth curve is laid through the readings, and the stage
    with the sharpest upward bend is taken. Bending is the
    hardest thing to see in eight noisy points. Where it is
    sharpest at the last inner stage, the end of the test made
    it, and there is no answer.`,
  derivative,
  showMethods(study, 'second-derivative'),
];
