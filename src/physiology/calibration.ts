/**
 * Methods whose intervals do not hold what they promise in every kind of simulated test, and why; the figures stand in
 * tests/calibration/coverage.md, and a test holds this list to them.
 */
const CAUTIONS: Readonly<Record<string, string>> = {
  'minimum-equivalent':
    'nearly half of the tests have their lowest ratio at an end of the range in too many draws and get no interval; those that get one are a selection, and hold 88 to 91 % in some kinds of tests.',
  'minimum-equivalent-plus-1.5':
    'it counts from the lowest ratio of lactate to intensity, which now and then jumps to another stage; 93 % at least.',
  dmax: 'every reading has a say in it, so one sample with sweat in it moves it whichever stage it is from, and the interval is then centred on the moved answer: 92 %, and 95 % in the same tests without sweat.',
  'dmax-exponential':
    'every reading has a say in it, and so has one sample with sweat in it: 93 % in tests that begin with a falling lactate.',
  'modified-dmax':
    'it starts from the stage of the first rise, and noise makes that an earlier stage more often than a later one: 92 %, with answers too low by a quarter of a standard deviation.',
  'modified-dmax-exponential':
    'it starts from the stage of the first rise, which noise makes an earlier one, on a curve that leaves nothing to chance otherwise: 88 to 93 %, with answers too low by up to a third of a standard deviation.',
  'turn-point-1':
    'three lines are fitted to seven to ten readings, and noise puts the first corner too early: 90 to 93 %, with answers too low by up to two thirds of a standard deviation.',
};

/** Ids of the methods that `coverageCaution` has a caution for. */
export const UNCALIBRATED: readonly string[] = Object.keys(CAUTIONS);

/** Why the intervals of a method hold less than they promise, and how much they hold; null when they are good. */
export const coverageCaution = (method: string): string | null => CAUTIONS[method] ?? null;
