import {
  errorsFrom,
  lactateWords,
  prose,
  usualErrors,
} from '#hourline';
import { meter } from './15-protocol.ts';
import * as ofMeter from './60-meter.ts';
import * as ofHands from './61-hands.ts';
import * as ofMachine from './61-machine.ts';

export const error = errorsFrom(
  usualErrors(meter.value),
  ofMeter,
  ofHands,
  ofMachine,
);

const spread = (lactate: number) =>
  Math.hypot(
    error.repeatability,
    error.repeatabilityShare * lactate,
  );
const shared = (lactate: number) =>
  Math.hypot(error.offset, error.gain * lactate);

export default prose`
  So, 19 times in 20, a reading of 2 mmol/L is good to
  ${lactateWords(2 * spread(2), 1)} either way, one of 4
  mmol/L to ${lactateWords(2 * spread(4), 1)}; and a meter
  that is off carries all readings near 4 mmol/L along by up
  to ${lactateWords(2 * shared(4), 1)} together.`;
