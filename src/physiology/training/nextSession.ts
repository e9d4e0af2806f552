import type { ErrorModel } from '../errorModel.ts';
import { heartRateAt } from '../heartRate.ts';
import { type ReadingLimits, readingLimits } from './nextSessionReadings.ts';
import {
  chanceFrom,
  thresholdAfter,
  type WeightedThreshold,
  weightedQuantile,
} from './nextSessionThreshold.ts';
import type { ExertionScale } from './session.ts';
import { changeAfter, RESERVE, type Verdict } from './sessionDecision.ts';
import type { SecondThreshold } from './sessionLevel.ts';
import type { SessionReview } from './sessionReview.ts';
import { EXERTION } from './sessionStrain.ts';

/** Reps of equal length. */
export interface Reps {
  count: number;
  minutes: number;
}

/** What is known when the next session is planned. */
export interface PlanInputs {
  threshold: SecondThreshold;
  /** The last session; null when there is none. */
  review: SessionReview | null;
  /** Verdict of the session before that one. */
  before: Verdict | null;
  /** Minutes between the reps of the last session. */
  restMinutes: number;
  error: ErrorModel;
  /** Wanted chance of staying at or under the second threshold. */
  stay?: number;
}

/** Why the upper end lies where it does: the error of the threshold, or what the last session was. */
type LimitedBy = 'error' | 'last session';

/** A session to take along: intensity, reps, and the readings at which to ease or stop. */
export interface NextSession {
  /** A doctor first; two days easy first; or as planned. */
  when: 'doctor' | 'rest' | 'ready';
  /** W or km/h; null when no threshold tells: then by feel alone. */
  intensity: { from: number; to: number; limitedBy: LimitedBy } | null;
  /** Whether there is none since the first threshold lies above the second. */
  reversed: boolean;
  /** Chance that the upper end lies at or under the second threshold. */
  stay: number | null;
  /** Heart rate at the upper end in the step test, bpm, rounded down. */
  heartRate: number | null;
  reps: Reps;
  restMinutes: number;
  /** Longer reps instead, when the last session allows them. */
  longReps: Reps | null;
  readings: ReadingLimits;
  /** Rating to keep to. */
  exertion: { scale: ExertionScale; from: number; to: number };
  /** The threshold is known so poorly that reps are kept short and the first one easier. */
  unsure: boolean;
  /** Two sessions in a row were below while the test allows no more: test again rather than go by it. */
  retest: boolean;
}

/** Wanted chance of staying under, unless said otherwise (our rule). */
const STAY = 0.9;
/** Width of the intensity range, as a fraction (our rule). */
const WIDTH = 0.03;
/** Half of the range that holds 80 % of the draws, against the median: above it the threshold counts as unsure (our rule). */
const UNSURE = 0.04;
/** Usual reps (common practice): 6 to 12 min; what to begin with is our rule. */
const USUAL = { least: 6, most: 12, begin: { count: 4, minutes: 8 }, unsure: 8 };
/** Few enough to stay fresh, many enough to be a session; work in all, min (our rule). */
const COUNT = { least: 2, most: 6 };
const MOST_WORK = 48;
/** Long reps only with some left (common practice: 15 to 20 min no more than reasonably uncomfortable). */
const LONG = { minutes: 15, count: 2 };

/**
 * A threshold session for the next time: it stays at or under the second threshold with a stated chance, and takes the
 * last reviews into account.
 *
 * Model     upper end: the intensity that LT2 lies at or above with the wanted chance, by the test and the last session
 *           together, and never above what the decision table makes of that session; the range reaches 3 % below it.
 *           Reps as last time, one less after a session that was too hard, one more after one on target before they get
 *           longer, and only then harder
 * Units     W or km/h, min, bpm, mmol/L
 * Source    our rule; lengths of reps, reserve and ratings: common practice
 */
export function nextSession(inputs: PlanInputs): NextSession {
  const { threshold, review, restMinutes, stay = STAY, error } = inputs;
  const known = thresholdAfter(threshold, review);
  const limit = limitOf(known, stay);
  const intensity = limit === null ? null : rangeUnder(limit, inputs);
  const unsure = limit === null || spreadOf(known) > UNSURE;
  const verdict = review?.verdict ?? null;
  const reps = plannedReps(inputs, unsure);
  const rest = verdict === 'too-hard' ? Math.max(3, restMinutes + 1) : restMinutes;
  const scale = review?.scale ?? '6-20';
  const rates = threshold.heartRates;
  const heartRate = intensity && rates ? heartRateAt(rates, intensity.to) : null;
  return {
    when: verdict === 'doctor' ? 'doctor' : verdict === 'too-hard' ? 'rest' : 'ready',
    intensity,
    reversed: threshold.reversed,
    stay: intensity && chanceFrom(known, intensity.to),
    heartRate: heartRate && Math.floor(heartRate),
    reps,
    restMinutes: rest,
    longReps: allowsLongReps(inputs, unsure) ? { ...LONG } : null,
    readings: readingLimits(threshold, { minutes: reps.minutes, restMinutes: rest }, { error }),
    exertion: { scale, from: EXERTION[scale].from, to: EXERTION[scale].to },
    unsure,
    retest: verdict === 'below' && inputs.before === 'below' && intensity?.limitedBy === 'error',
  };
}

/** The intensity that this share of the weight lies at or above; null where that is no number. */
function limitOf(known: WeightedThreshold, stay: number): number | null {
  const value = weightedQuantile(known, 1 - stay);
  return Number.isFinite(value) ? value : null;
}

function spreadOf(known: WeightedThreshold): number {
  const [low, median, high] = [0.1, 0.5, 0.9].map((p) => weightedQuantile(known, p));
  return (high! - low!) / 2 / median!;
}

function rangeUnder(limit: number, { review, before }: PlanInputs): NextSession['intensity'] {
  const wanted = wantedAfter(review, before);
  const to = Math.min(limit, wanted ?? limit);
  return { from: (1 - WIDTH) * to, to, limitedBy: to === limit ? 'error' : 'last session' };
}

/** What the decision table makes of the last intensity; null when it says nothing. */
function wantedAfter(review: SessionReview | null, before: Verdict | null): number | null {
  if (review === null || review.intensity === null) return null;
  const change = changeAfter(review.verdict);
  if (change === null) return review.intensity;
  // One session below is weak evidence: higher only after two.
  const once = review.verdict === 'below' && before !== 'below';
  return review.intensity * (1 + (once ? 0 : change[1]));
}

function plannedReps({ review }: PlanInputs, unsure: boolean): Reps {
  const last = review ? repsOf(review) : USUAL.begin;
  const next = after(last, review?.verdict ?? null);
  const most = unsure ? USUAL.unsure : USUAL.most;
  return {
    count: Math.min(COUNT.most, Math.max(COUNT.least, next.count)),
    minutes: Math.min(most, Math.max(USUAL.least, next.minutes)),
  };
}

/** The reps that were done, however many there were of other intensities; long ones count as the longest usual. */
function repsOf({ worked }: SessionReview): Reps {
  const minutes = worked.reduce((sum, rep) => sum + rep.minutes, 0) / worked.length;
  return { count: worked.length, minutes: Math.min(USUAL.most, Math.round(minutes)) };
}

function after({ count, minutes }: Reps, verdict: Verdict | null): Reps {
  if (verdict === 'too-hard') return { count: count - 1, minutes };
  if (verdict === 'drifting') return { count, minutes: minutes - 2 };
  if (verdict !== 'on-target') return { count, minutes };
  if ((count + 1) * minutes <= MOST_WORK && count < COUNT.most) return { count: count + 1, minutes };
  return { count, minutes: minutes + 1 };
}

function allowsLongReps({ review }: PlanInputs, unsure: boolean): boolean {
  if (review === null || unsure || (review.reserve ?? 0) < RESERVE || review.scale === null) return false;
  const fine: Verdict[] = ['on-target', 'under', 'below'];
  const { exertion } = review.strain;
  return (
    fine.includes(review.verdict) && exertion !== null && exertion <= EXERTION[review.scale].uncomfortable
  );
}
