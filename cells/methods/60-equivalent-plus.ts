import { prose, showMethods } from '#hourline';
import { equivalent10, equivalent15 } from './41-second.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## From the least equivalent up
    The athlete's own floor, taken where a watt costs least,
    and a fixed rise from there. It joins two ideas you have
    seen: an individual start and a level. It is among the
    steadiest, since the floor is a low flat part and the
    target lies where the curve is steep.`,
  [equivalent10, equivalent15],
  showMethods(
    study,
    'minimum-equivalent-plus-1.0',
    'minimum-equivalent-plus-1.5',
  ),
];
