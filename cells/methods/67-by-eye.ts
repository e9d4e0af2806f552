import { prose, showMethods } from '#hourline';
import { visual1 } from './40-first.ts';
import { visual2 } from './42-second-more.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## The eye
    What was read off the bare points at the top of this page.
    The spread is that of the raters; the errors of the meter
    are not in it. With one rater there is no spread, so there
    is no answer.`,
  [visual1, visual2],
  showMethods(study, 'visual-1', 'visual-2'),
];
