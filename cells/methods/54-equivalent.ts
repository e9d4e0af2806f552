import { prose, showMethods } from '#hourline';
import { equivalent } from './40-first.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## Where a watt costs least lactate
    Divide each lactate by its intensity. The quotient falls
    while intensity grows faster than lactate and rises
    afterwards; its lowest point is the threshold. The picture
    has another vertical axis than the others for that reason.
    A test that starts too hard hides the minimum: then it
    lies at the first stage, and there is no answer.`,
  equivalent,
  showMethods(study, 'minimum-equivalent'),
];
