import {
  checkTest,
  prose,
  showChecks,
  wentToExhaustion,
} from '#hourline';
import { effort } from './15-protocol.ts';
import { test } from './25-readings.ts';

const toExhaustion = wentToExhaustion(effort.value);

export default [
  prose`
    ## Was it a good test?
    Nothing is corrected or left out for you. What follows is
    what to know before believing the figures.`,
  showChecks(checkTest(test, { toExhaustion }), test),
];
