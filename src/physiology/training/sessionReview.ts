import { InputError } from '../../base/inputError.ts';
import { type Spread, spreadOf } from '../../numerics/quantiles.ts';
import type { ErrorModel } from '../errorModel.ts';
import {
  type ExertionScale,
  meanIntensity,
  type Rep,
  type Session,
  type SessionContext,
  type Sign,
} from './session.ts';
import { combined, disagree, type Evidence, type IntensityBasis, intensityChance } from './sessionChances.ts';
import { courseAtThreshold, type ThresholdCourse } from './sessionCourse.ts';
import { type Change, decide, LIMITS, type Verdict } from './sessionDecision.ts';
import { standingOut } from './sessionDoubt.ts';
import { type DrawnSession, drawSession, type GroupChances, type Sample } from './sessionDraws.ts';
import type { SecondThreshold } from './sessionLevel.ts';
import { type Strain, strainOf } from './sessionStrain.ts';

/** What one lactate reading says. */
export interface ReadingReview {
  row: number;
  rep: number;
  /** Minute of the rep, and minutes of work up to it. */
  minute: number;
  work: number;
  /** mmol/L. */
  lactate: number;
  /** Too early in its rep: nothing below is told. */
  early: boolean;
  /** The level that it leads to when the intensity is held, mmol/L. */
  level: Spread | null;
  evidence: Evidence;
  chance: number | null;
}

/** The verdict on a session, with all that led to it. */
export interface SessionReview {
  verdict: Verdict;
  change: Change;
  /** Combined chance that the hardest part of the session lay above the second threshold. */
  chance: number | null;
  evidence: Evidence;
  /** What the chance by intensity was read from; null when neither told. */
  basis: IntensityBasis | null;
  /** Whether the intensity was compared with nothing since the first threshold lies above the second. */
  reversed: boolean;
  /** Intensity and lactate say very different things. */
  disagreement: boolean;
  /** Whether at least two readings came late enough. */
  assessable: boolean;
  usable: number;
  readings: ReadingReview[];
  /** The reps that decided: those most likely above; W or km/h. */
  decided: Rep[];
  intensity: number | null;
  /** All reps that were work near that intensity: not a warm-up. */
  worked: Rep[];
  /** More reps that would have been possible; null when not known. */
  reserve: number | null;
  scale: ExertionScale | null;
  signs: Sign[];
  strain: Strain;
  /** Readings far above both their neighbours: perhaps sweat in the sample. */
  doubtful: Sample[];
  /** Level that intensity held at the second threshold leads to, mmol/L. */
  held: Spread;
  /** Lactate of the same reps done right at the second threshold, for the picture. */
  course: ThresholdCourse[];
}

interface ReviewOptions {
  error: ErrorModel;
  /** Draws, and where they start. */
  draws?: number;
  seed?: number;
}

/** Share of the deciding intensity from which a rep counts as work (our rule). */
const WORK = 0.9;

/** Fewest readings, late enough in their rep, for a clear word (our rule: one drop may hold sweat). */
const LEAST_READINGS = 2;

/**
 * Whether a session of intervals stayed at or under the second threshold.
 *
 * Model     three chances by joint draws, kept apart and then combined: the intensity against the threshold, the level
 *           that lactate was heading for against the level of intensity held at the threshold, and lactate drifting
 *           upwards. Reps within 2 % are judged together, the session by its hardest part. Signs override all
 * Units     W or km/h, min, mmol/L, bpm
 * Missing   any of the three may be missing; fewer than two readings after minute 4 of their rep leave the session
 *           not assessable, and at most probably above by its intensity
 * Random    seeded; 2000 draws put the standard error of a chance at 0.011 or less
 * Throws    InputError when the intensities of session and test are not of the same kind
 * Source    our rule throughout, tried on simulated athletes (tests/calibration/sessions.md)
 */
export function reviewSession(
  session: Session,
  context: SessionContext,
  threshold: SecondThreshold,
  { error, draws = 2000, seed = 1 }: ReviewOptions,
): SessionReview {
  checkAxis(session, threshold);
  const drawn = drawSession(session, context, threshold, { error, draws, seed });
  const groups = drawn.groups.map((group) => judged(group, threshold));
  const hardest = groups.reduce((a, b) => ((b.chance ?? -1) > (a.chance ?? -1) ? b : a));
  const assessable = hardest.group.usable >= LEAST_READINGS;
  const strain = strainOf(hardest.group.reps, threshold.heartRates);
  const signs = [...new Set(session.reps.flatMap((rep) => rep.signs))];
  const { chance, evidence, basis } = hardest;
  const intensity = meanIntensity(hardest.group.reps);
  const told = { signs, chance, strain, scale: session.exertionScale, reserve: context.reserve };
  return {
    ...decide({ ...told, assessable }),
    ...told,
    evidence,
    basis,
    reversed: threshold.reversed,
    disagreement: assessable && disagree(evidence),
    assessable,
    usable: hardest.group.usable,
    readings: readingsOf(drawn, groups, threshold),
    decided: hardest.group.reps,
    intensity,
    worked: session.reps.filter((rep) => (rep.intensity ?? 0) >= WORK * (intensity ?? 0)),
    doubtful: standingOut(drawn.samples, error),
    held: mostOf(drawn.held),
    course: courseAtThreshold(session, context, drawn),
  };
}

function checkAxis({ axis, reps }: Session, threshold: SecondThreshold): void {
  if (axis === threshold.axis || reps.every((rep) => rep.intensity === null)) return;
  throw new InputError(
    `the session is given in ${axis}, the step test in ${threshold.axis}; expected ${threshold.axis} in both`,
    { field: 'intensity' },
  );
}

interface Judged {
  group: GroupChances;
  evidence: Evidence;
  basis: IntensityBasis | null;
  chance: number | null;
}

function judged(group: GroupChances, threshold: SecondThreshold): Judged {
  const byIntensity = intensityChance(group.reps, threshold);
  const { lactate, drift } = group;
  const evidence = { intensity: byIntensity?.chance ?? null, lactate, drift };
  return { group, evidence, basis: byIntensity?.basis ?? null, chance: combined(evidence) };
}

function readingsOf(
  drawn: DrawnSession,
  groups: readonly Judged[],
  threshold: SecondThreshold,
): ReadingReview[] {
  return drawn.samples.map(({ reading, rep, minute, lactate, work, usable }, i) => {
    const { drift } = groups.find(({ group }) => group.reps.includes(rep))!.evidence;
    const intensity = intensityChance([rep], threshold)?.chance ?? null;
    const evidence = { intensity, lactate: drawn.above[i]!, drift };
    const level = drawn.levels[i];
    return {
      row: reading.row,
      rep: rep.number,
      minute,
      work,
      lactate,
      early: !usable,
      level: level ? mostOf(level) : null,
      evidence,
      chance: usable ? combined(evidence) : null,
    };
  });
}

/** Median and the range that holds 80 % of the draws. */
const mostOf = (values: Float64Array): Spread => spreadOf(values, 0.1);

/** How a chance is called. */
export function callOf(chance: number): 'below' | 'at or just under' | 'probably above' | 'above' {
  if (chance < LIMITS.below) return 'below';
  if (chance <= LIMITS.above) return 'at or just under';
  return chance <= LIMITS.clear ? 'probably above' : 'above';
}
