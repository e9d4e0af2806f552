import { prose, showMethods } from '#hourline';
import { fixed20 } from './40-first.ts';
import { fixed30, fixed35, fixed40 } from './41-second.ts';
import { study } from './48-study.ts';

export default [
  prose`
    ## A level that is the same for everybody
    Four mmol/L began as the average of a group. An athlete
    whose lactate stays low reaches them late or never,
    another meets them while riding easily. The answer is
    steady all the same, for the curve is steep there: steady
    is not the same as right. A meter that reads 5 % high
    moves it in every test alike.`,
  [fixed20, fixed30, fixed35, fixed40],
  showMethods(
    study,
    'fixed-2.0',
    'fixed-3.0',
    'fixed-3.5',
    'fixed-4.0',
  ),
];
