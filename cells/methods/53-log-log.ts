import { prose, showMethods } from '#hourline';
import { logLog } from './40-first.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## A bend on logarithmic axes
    With both axes logarithmic the slow part and the steep
    part of the curve look like two straight lines. The bend
    between them is the threshold. Try it: change the last
    reading and see the bend at the other end of the test
    move.`,
  logLog,
  showMethods(study, 'log-log'),
];
