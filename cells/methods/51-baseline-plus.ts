import { prose, showMethods } from '#hourline';
import {
  plus03,
  plus04,
  plus05,
  plus10,
} from './40-first.ts';
import { plus15 } from './41-second.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## A rise above the athlete's own baseline
    Look at the two levels: the baseline, and the target above
    it. The curve is nearly flat where they cross, so a small
    error upward or downward moves the answer far to the side.
    The smaller the rise, the worse; and all of it hangs on
    what is called baseline. Change that above.`,
  [plus03, plus04, plus05, plus10, plus15],
  showMethods(
    study,
    'baseline-plus-0.3',
    'baseline-plus-0.4',
    'baseline-plus-0.5',
    'baseline-plus-1.0',
    'baseline-plus-1.5',
  ),
];
