import {
  fitCurve,
  prose,
  showCurve,
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

const { readings, display } = test;
const curve = fitCurve(readings, { model: 'cubic' });
const other = fitCurve(readings, { model: 'exponential' });

export default [
  prose`
    ## What comes out
    The readings without any error, and bars for what your
    meter would repeat to. Two curves that are commonly drawn
    through them: look where they miss.`,
  showCurve(readings, [curve, other], { display, error }),
];
