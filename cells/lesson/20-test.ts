import {
  prose,
  showRepeatsOf,
  simulateTest,
} from '#hourline';
import { athlete } from './12-athlete.ts';
import * as set from './15-protocol.ts';
import { error } from './19-error.ts';

export const protocol = {
  stageMinutes: set.stageMinutes.value,
  start: set.start.value,
  increment: set.increment.value,
};
export const test = simulateTest(athlete, protocol);

export default [
  prose`
    ## What comes out
    The readings as they are, and as your meter would show
    them on three other days that are the same in everything
    else. A lactate near the MLSS in this test is not the
    lactate of the MLSS: stages are too short for that.`,
  showRepeatsOf(test, { error, repeats: 3, seed: 1 }),
];
