import { prose, showMethods } from '#hourline';
import {
  modified,
  modifiedExponential,
} from './42-second-more.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## The same with a start of its own
    To be free of where the test began, the line starts at the
    stage before the first rise. Now all hangs on that stage:
    when a rise is close to the limit of 0.4 mmol/L, a small
    error moves the start by a whole stage. Compare both
    readings of the rule above.`,
  [modified, modifiedExponential],
  showMethods(
    study,
    'modified-dmax',
    'modified-dmax-exponential',
  ),
];
