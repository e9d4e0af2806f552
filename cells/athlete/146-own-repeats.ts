import {
  ownRepeatability,
  pairsIn,
  showOwnRepeats,
  showTwoMeters,
} from '#hourline';
import { display } from './25-readings.ts';
import { meters, repeats } from './144-repeats.ts';

const tests = pairsIn(repeats);
const samples = pairsIn(meters);
export const own = ownRepeatability(tests);

export default (tests || samples) && [
  tests && showOwnRepeats(tests, display.unit),
  samples && showTwoMeters(samples),
];
