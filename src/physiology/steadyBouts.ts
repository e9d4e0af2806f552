import { lineThrough } from '../numerics/lineThrough.ts';
import { normalCdf } from '../numerics/normal.ts';
import type { ErrorModel } from './errorModel.ts';
import { displayedSd } from './readingDraws.ts';
import type { BoutReadings, Readings } from './stepTest.ts';

/** Greatest rise from minute 10 to minute 30 that counts as steady, mmol/L. */
export const STEADY_RISE = 1.0;
/** Differences that are equal on paper must be equal here. */
const SLACK = 1e-9;
const FIRST = 10;
const LAST = 30;
/** A sample this near the planned minute counts as taken then (our rule). */
const NEAR = 1;

/** A bout with the places of its samples at minutes 10 and 30 among the points; -1 where there is none. */
interface PlacedBout extends BoutReadings {
  first: number;
  last: number;
  /** Given up before minute 30: not steady, whatever lactate did. */
  stopped: boolean;
}

/** Where the samples that decide about each bout stand. */
export const placedBouts = ({ bouts, minute }: Readings): PlacedBout[] =>
  (bouts ?? []).map((bout) => {
    const last = sampleAt(LAST, bout, minute!);
    const stopped = bout.completed === false || (bout.completed === null && last < 0);
    return { ...bout, first: sampleAt(FIRST, bout, minute!), last, stopped };
  });

function sampleAt(wanted: number, { start, end }: BoutReadings, minute: Float64Array): number {
  let best = -1;
  for (let i = start; i < end; i++) {
    const off = Math.abs(minute[i]! - wanted);
    if (off <= NEAR && (best < 0 || off < Math.abs(minute[best]! - wanted))) best = i;
  }
  return best;
}

/** Whether a bout was steady on these lactates: rise of at most 1.0 mmol/L from minute 10 to minute 30. */
export const isSteady = ({ first, last, stopped }: PlacedBout, y: Float64Array): boolean =>
  !stopped && y[last]! - y[first]! <= STEADY_RISE + SLACK;

/** Mean lactate from minute 10 to minute 30. */
export function meanFrom({ first, last }: PlacedBout, y: Float64Array): number {
  let sum = 0;
  for (let i = first; i <= last; i++) sum += y[i]!;
  return sum / (last - first + 1);
}

/** What one bout says. */
export interface BoutVerdict {
  intensity: number;
  stopped: boolean;
  /** Rise from minute 10 to minute 30, mmol/L; null for a bout that was given up. */
  rise: number | null;
  /** The same from a straight line through all samples from minute 10 to 30: 20 times its slope. */
  regressionRise: number | null;
  /** Chance that the true rise is 1.0 mmol/L or less, by the repeatability of the meter. */
  steadyChance: number | null;
  steady: boolean;
  /** Mean from minute 10 to minute 30, mmol/L. */
  lactate: number | null;
}

/**
 * Each bout's rise and whether it was steady.
 *
 * Model     chance = Φ((1.0 − rise)/SD), SD the root of the squared errors of the two readings; calibration offset and
 *           gain, the same for both, leave a rise near 1.0 all but unmoved
 * Units     mmol/L
 * Source    Heck et al. 1985, Int J Sports Med 6:117–130; Beneke 2003, Eur J Appl Physiol 89:95–99 (from memory)
 */
export function boutVerdicts(readings: Readings, error: ErrorModel): BoutVerdict[] {
  const { y } = readings;
  return placedBouts(readings).map((bout) => {
    const { intensity, stopped, first, last } = bout;
    const known = !stopped && first >= 0 && last >= 0;
    if (!known) {
      const nothing = { rise: null, regressionRise: null, steadyChance: stopped ? 0 : null, lactate: null };
      return { intensity, stopped, steady: false, ...nothing };
    }
    const rise = y[last]! - y[first]!;
    const sd = Math.hypot(displayedSd(y[first]!, error), displayedSd(y[last]!, error));
    return {
      intensity,
      stopped,
      rise,
      regressionRise: regressionRise(bout, readings),
      steadyChance: sd > 0 ? normalCdf((STEADY_RISE - rise) / sd) : Number(rise <= STEADY_RISE),
      steady: isSteady(bout, y),
      lactate: meanFrom(bout, y),
    };
  });
}

/** Least-squares slope of the samples from minute 10 to 30, over 20 minutes. */
function regressionRise({ first, last }: PlacedBout, { minute, y }: Readings): number {
  const { slope } = lineThrough(minute!.subarray(first, last + 1), y.subarray(first, last + 1));
  return (LAST - FIRST) * slope;
}

/** The highest steady and the lowest unsteady bout, with what lies between them by the rise. */
interface Bracket {
  steady: number;
  unsteady: number;
  /** Where a straight line between the two rises passes 1.0 mmol/L (our rule); null when the upper one was given up. */
  between: number | null;
}

/** Null when one side is missing, or a steady bout lies above an unsteady one. */
export function bracketOf(verdicts: readonly BoutVerdict[]): Bracket | null {
  const unsteady = verdicts.findIndex((v) => !v.steady);
  if (unsteady < 1 || verdicts.slice(unsteady).some((v) => v.steady)) return null;
  const [low, high] = [verdicts[unsteady - 1]!, verdicts[unsteady]!];
  const between =
    high.rise === null
      ? null
      : low.intensity +
        ((STEADY_RISE - low.rise!) / (high.rise - low.rise!)) * (high.intensity - low.intensity);
  return { steady: low.intensity, unsteady: high.intensity, between };
}
