import { prose, showMethods } from '#hourline';
import { firstRise } from './40-first.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## A step that stays up: first rise
    The plainest way: go up the stages until lactate has risen
    and does not come back. No curve is drawn, so nothing
    depends on one; but the answer can only be a stage, and
    one unlucky reading moves it by a whole step.`,
  firstRise,
  showMethods(study, 'first-rise'),
];
