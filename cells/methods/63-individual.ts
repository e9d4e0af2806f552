import { prose, showMethods } from '#hourline';
import { individual } from './42-second-more.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## A tangent from the recovery
    The only one that looks at what happens after the test.
    Lactate goes on rising, then falls back to its value at
    the end; from that moment a line is laid back to touch the
    curve. How fast it falls depends on rest or movement, so
    write down which. The picture runs over time, not over
    intensity.`,
  individual,
  showMethods(study, 'individual-anaerobic'),
];
