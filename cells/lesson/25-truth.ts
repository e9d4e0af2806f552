import { prose, showAgainstTruth } from '#hourline';
import { error } from './19-error.ts';
import { test } from './20-test.ts';

export default [
  prose`
    ## Every method against the truth
    A dot is a method's answer on perfect readings: how far
    it lies from the line is its **bias**. A bar holds 95 %
    of the answers when the test is repeated with your meter:
    that is its **scatter**. A method may be steady and
    wrong, or right and wild.

    A method is held against what it claims: one for the
    first threshold cannot miss the MLSS, for it does not
    look for it.`,
  showAgainstTruth(test, { error, repeats: 1000, seed: 1 }),
];
