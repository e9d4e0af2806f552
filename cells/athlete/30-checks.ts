import { checkTest, prose, showChecks } from '#hourline';
import { test } from './25-readings.ts';

export default [
  prose`
    ## Was it a good test?
    Nothing is corrected or left out for you. What follows is
    what to know before believing the figures.`,
  showChecks(checkTest(test)),
];
