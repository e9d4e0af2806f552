import type { Random } from '../../numerics/random.ts';

/** What happened between the tests that figures come from and today. */
export interface SinceTest {
  /** Days since the tests. */
  days: number;
  /** Days of these without training, up to today. */
  daysWithoutTraining: number;
}

/** The tests are of today. */
export const NOTHING_SINCE: SinceTest = { days: 0, daysWithoutTraining: 0 };

/** Change of a sustainable intensity to be reckoned with, as shares: −0.05 is 5 % less. */
export interface FitnessShift {
  /** Anywhere between these, evenly. */
  low: number;
  high: number;
  /** Standard deviation, on top, for the age of the test. */
  sd: number;
  /** True when the tests say nothing any more. */
  retest: boolean;
}

/** Range of the loss by length of the break: days up to which it holds, and the shares lost. */
const LOSSES = [
  { until: 0, low: 0, high: 0 },
  { until: 10, low: -0.02, high: 0 },
  { until: 21, low: -0.05, high: -0.02 },
  { until: 56, low: -0.1, high: -0.04 },
] as const;
/** A test stays as good as new so long, days; afterwards its error grows by so much a day. */
const FRESH_DAYS = 28;
const DAILY_SD = 0.0015;

/**
 * What a break from training, or a long time since the test, may have done to a sustainable intensity.
 *
 * Model     a stop of 1–10 days costs 0–2 %, of 11–21 days 2–5 %, of 22–56 days 4–10 %; beyond, test again. With training
 *           going on, 0.15 % of standard deviation a day after day 28
 * Source    maximal oxygen uptake −7 % in 12–21 days, −14 to −16 % in 56–84 days (Coyle 1984, J Appl Physiol
 *           57:1857–1864, from memory); threshold from 79 to 75 % of it (Coyle 1985, J Appl Physiol 59:853–859, from
 *           memory); reviews Mujika & Padilla 2000, Sports Med 30:79–87, 145–154. The sizes here are our rule
 *
 * @example
 * shiftSince({ days: 20, daysWithoutTraining: 14 }).low // -0.05
 */
export function shiftSince({ days, daysWithoutTraining }: SinceTest): FitnessShift {
  const off = Math.max(0, daysWithoutTraining);
  const step = LOSSES.find(({ until }) => off <= until);
  const trained = Math.max(0, days - off);
  return {
    low: step?.low ?? NaN,
    high: step?.high ?? NaN,
    sd: DAILY_SD * Math.max(0, trained - FRESH_DAYS),
    retest: step === undefined,
  };
}

/** One factor for a sustainable intensity, drawn from a shift; NaN when a new test is needed. */
export const drawShift = ({ low, high, sd }: FitnessShift, random: Random): number =>
  1 + low + (high - low) * random.uniform() + sd * random.normal();
