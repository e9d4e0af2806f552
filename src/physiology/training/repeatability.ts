import type { Sport } from '../../base/units.ts';

/** How well one method's threshold repeats from test to test of one athlete, everything included. */
export interface Repeatability {
  /** Coefficient of variation of one test, as a fraction. */
  variation: number;
  source: string;
  /** Who says so and of whom, in a few words. */
  short: string;
}

const PALLARES = {
  source: 'Pallarés 2016, PLoS ONE 11:e0163389 (abstract): 14 cyclists',
  short: 'Pallarés 2016, cyclists',
};
const HAUSER = {
  source: 'Hauser 2013, Int J Sports Med (abstract): power at the maximal lactate steady state, 32 cyclists',
  short: 'Hauser 2013, cyclists',
};
const CEREZUELA = {
  source: 'Cerezuela-Espejo 2018, Front Physiol (abstract): 22 runners',
  short: 'Cerezuela-Espejo 2018, runners',
};
const HEUBERGER = {
  source:
    'Heuberger 2018, PLoS ONE 13:e0206846 (abstract): the largest of eight concepts, 48 cyclists; which belongs to this one was not read',
  short: 'Heuberger 2018, cyclists',
};
const WELTMAN = {
  source: 'Weltman 1990, Int J Sports Med 11:26–32 (abstract): below 10 of 274 m/min, 15 runners',
  short: 'Weltman 1990, runners',
};

/** Methods whose threshold is where lactate leaves its baseline, or a fixed rise above that. */
const ABOVE_BASELINE = /^(baseline-plus|first-rise|log-log|turn-point-1|minimum-equivalent)/;

/**
 * Published repeatability of a method's threshold. The figures hold the meter's error too: the sampling error of one test
 * is not to be added.
 *
 * Source    each figure with its own; which methods share one is our rule
 *
 * @example
 * repeatabilityOf('dmax', 'cycling').variation // 0.103
 */
export function repeatabilityOf(method: string, sport: Sport): Repeatability {
  if (method === 'steady-state-bouts') return { variation: 0.03, ...HAUSER };
  if (/^dmax/.test(method)) return { variation: 0.103, ...PALLARES };
  if (ABOVE_BASELINE.test(method))
    return sport === 'running' ? { variation: 0.031, ...CEREZUELA } : { variation: 0.037, ...PALLARES };
  if (/^fixed-\d/.test(method) && sport === 'running') return { variation: 0.037, ...WELTMAN };
  return { variation: 0.081, ...HEUBERGER };
}

/**
 * Smallest change between two single tests that is more than chance at 95 %, in the unit of `intensity`.
 *
 * Source    1.96·√2·typical error (Hopkins 2000, Sports Med 30:1–15, from memory)
 *
 * @example
 * smallestDetectableChange(280, 0.037) // 28.72
 */
export const smallestDetectableChange = (intensity: number, variation: number): number =>
  1.96 * Math.SQRT2 * variation * intensity;
