import type { Axis } from '../../base/units.ts';
import type { Random } from '../../numerics/random.ts';
import { areReversed } from '../bands.ts';
import type { HeartRates } from '../heartRate.ts';
import type { SamplingResult } from '../samplingTypes.ts';
import { samplingOf, thresholdDraws } from '../thresholdDraws.ts';

/** What is known of the second threshold when a session is judged. */
export interface SecondThreshold {
  axis: Axis;
  /** W or km/h in each draw; ±∞ beyond the tested range, NaN where the method refused. Empty when nothing goes by it. */
  draws: Float64Array;
  /** Whether the first threshold lies above it: one of the two is wrong, so that nothing goes by it. */
  reversed: boolean;
  /** Lactate on the curve of the step test there, mmol/L; null when the method gave no answer, or nothing goes by it. */
  stepLactate: number | null;
  /** Stage length of that test, min; null when unknown. */
  stageMinutes: number | null;
  /** Lactate at the maximal lactate steady state, measured in bouts of 30 min, mmol/L. */
  steadyLactate: number | null;
  heartRates: HeartRates | null;
}

/**
 * The second threshold of a sampled test by one method; `lt1` is the method of the first, which has to lie below it.
 *
 * Throws    InputError when the draws were made without it
 */
export function secondThresholdOf(
  result: SamplingResult,
  method: string,
  about: Partial<Pick<SecondThreshold, 'stageMinutes' | 'steadyLactate' | 'heartRates'>> & {
    lt1?: string;
  } = {},
): SecondThreshold {
  const { estimate, status } = samplingOf(result, method);
  // What too many draws cannot find is no threshold to judge by.
  const lost = estimate.refused || status === 'not-determined' || status === 'not-shown';
  const reversed = about.lt1 !== undefined && areReversed(result, about.lt1, method);
  return {
    axis: result.axis,
    draws: lost || reversed ? new Float64Array(0) : thresholdDraws(result, method),
    reversed,
    stepLactate: estimate.refused || reversed ? null : estimate.lactate,
    stageMinutes: about.stageMinutes ?? null,
    steadyLactate: about.steadyLactate ?? null,
    heartRates: about.heartRates ?? null,
  };
}

/**
 * How many times the lactate of a step test the same intensity shows when it is held: by stage length, min (read off
 * the simulated athletes at their steady state; our rule).
 */
const STEP_TO_HELD: readonly [minutes: number, factor: number][] = [
  [3, 1.75],
  [4, 1.5],
  [5, 1.4],
  [8, 1.25],
];
/** Stage length to go by when none is known, min (our rule). */
const USUAL_STAGE = 4;
/** Spread of that factor, of its logarithm; and of a level that was measured, mmol/L (our rule). */
const FACTOR_SPREAD = 0.15;
const MEASURED_SPREAD = 0.3;
/** Highest median: near the mean lactate of people at their steady state, 4.9 ± 1.4 mmol/L (Beneke 2000, abstract). */
const HIGHEST_MEDIAN = 5;
const PEOPLE = { mean: 4.9, sd: 1.4, least: 2 };

/**
 * Factor from the lactate of a step test to that of the same intensity held, by straight lines between stage lengths.
 *
 * @example
 * stepToHeld(4) // 1.5
 * stepToHeld(6.5) // 1.325
 */
export function stepToHeld(stageMinutes: number): number {
  const after = STEP_TO_HELD.findIndex(([minutes]) => minutes >= stageMinutes);
  if (after < 0) return STEP_TO_HELD.at(-1)![1];
  if (after === 0) return STEP_TO_HELD[0]![1];
  const [[m1, f1], [m2, f2]] = [STEP_TO_HELD[after - 1]!, STEP_TO_HELD[after]!];
  return f1 + ((stageMinutes - m1) / (m2 - m1)) * (f2 - f1);
}

/**
 * One draw of the lactate that intensity held at the second threshold leads to, mmol/L: the level that a session is
 * compared with. Never the step test's own lactate there, which is far lower.
 *
 * Model     measured in bouts: normal around that. Else step lactate × factor of the stage length, log-normal, median at
 *           most 5.0 mmol/L so that a high fixed value cannot make the review permissive. Without either: people
 * Random    1 normal
 * Source    our rule, on the simulated athletes; people: Beneke 2000 (abstract)
 */
export function drawHeldLevel(
  { stepLactate, steadyLactate, stageMinutes }: SecondThreshold,
  random: Random,
): number {
  const z = random.normal();
  if (steadyLactate !== null) return Math.max(0.5, steadyLactate + MEASURED_SPREAD * z);
  if (stepLactate === null) return Math.max(PEOPLE.least, PEOPLE.mean + PEOPLE.sd * z);
  const median = Math.min(HIGHEST_MEDIAN, stepLactate * stepToHeld(stageMinutes ?? USUAL_STAGE));
  return median * Math.exp(FACTOR_SPREAD * z);
}

/** How lactate approaches its level within a rep, and falls between reps. */
export interface TimeCourse {
  /** Time constant of the approach, min. */
  tau: number;
  /** Lactate before the first rep, towards which it falls between reps, mmol/L. */
  rest: number;
}

const TAU = { median: 5.5, spread: 0.3 };
const BEFORE = { mean: 1.2, sd: 0.3, least: 0.5 };
/** Minutes until half of the raised lactate is gone (common practice, our rule). */
const HALF_LIFE = { active: 10, passive: 18 };
/** Lactate in the blood follows the start of a rep after this long, min. */
const LAG = 0.5;
/** Before this minute of a rep a reading does not tell where lactate is going, min (our rule). */
export const EARLIEST_MINUTE = 4;

/**
 * One draw of the time course.
 *
 * Random    2 normals
 * Source    our rule, on the simulated athletes: 3 to 6 min from 80 to 100 % of the steady state; the default leans
 *           to the slow, safe side
 */
export function drawTimeCourse(random: Random): TimeCourse {
  const tau = TAU.median * Math.exp(TAU.spread * random.normal());
  return { tau, rest: Math.max(BEFORE.least, BEFORE.mean + BEFORE.sd * random.normal()) };
}

/** Share of the way from the start of a rep to its level that lactate has gone by a minute. */
export const approached = (minute: number, { tau }: TimeCourse): number =>
  minute <= LAG ? 0 : 1 - Math.exp(-(minute - LAG) / tau);

/**
 * Lactate at a minute of a rep that leads to a level.
 *
 * @example
 * lactateInRep(1, 4, 60, { tau: 5.5, rest: 1.2 }) // 3.99994
 */
export const lactateInRep = (start: number, level: number, minute: number, course: TimeCourse): number =>
  start + (level - start) * approached(minute, course);

/** The level that a reading at a minute of a rep leads to. */
export const levelOf = (start: number, lactate: number, minute: number, course: TimeCourse): number =>
  start + (lactate - start) / approached(minute, course);

/**
 * Lactate after minutes between two reps.
 *
 * @example
 * lactateAfterRest(5, 10, 'active', { tau: 5.5, rest: 1 }) // 3
 */
export const lactateAfterRest = (
  end: number,
  minutes: number,
  mode: 'active' | 'passive',
  { rest }: TimeCourse,
): number => rest + (end - rest) * 2 ** (-minutes / HALF_LIFE[mode]);
