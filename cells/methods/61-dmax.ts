import { prose, showMethods } from '#hourline';
import { dmax, dmaxExponential } from './41-second.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## The farthest point from a line
    Draw a line from the first point of the curve to the last.
    The threshold is where the curve hangs farthest below it.
    That point does not care for calibration, but it cannot
    but lie inside the line: start lower or go on longer, and
    it moves, though the athlete is the same. With a cubic and
    with an exponential curve the same readings give two
    answers.`,
  [dmax, dmaxExponential],
  showMethods(study, 'dmax', 'dmax-exponential'),
];
