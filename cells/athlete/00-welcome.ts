import { onlyLive, prose, sayWhoseData } from '#hourline';
import { stages } from './20-stages.ts';

export default [
  prose`
    # What can this step test tell?

    A few minutes a stage, each harder than the last, a drop
    of blood after each: this workbook goes from that table to
    the two lactate thresholds, to how far each figure can be
    trusted, and to training bands. ${sayWhoseData(stages)}`,
  onlyLive(prose`
    **To use your own test:** set the athlete and the
    protocol, then paste or drop a table of stages, or type
    into it. Everything below follows at once. The short
    answer stands under “For the athlete”.

    The code of every part is beside it. Change a line and see
    what happens; nothing can break that a reset does not
    mend.`),
];
