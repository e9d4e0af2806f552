import type { SecondThreshold } from './sessionLevel.ts';
import type { SessionReview } from './sessionReview.ts';

/** The second threshold after what a session said: ascending draws and their shares, which add up to 1. */
export interface WeightedThreshold {
  /** W or km/h; ±∞ beyond the tested range. */
  x: Float64Array;
  share: Float64Array;
}

/**
 * Test and session together: the draws below the intensity of the session get as much weight together as the review gave
 * to having been above.
 *
 * Missing   draws in which the method gave no answer are left out. The test alone speaks when there is no session, when
 *           it was not assessable or judged by heart rate, and when all draws lie on one side of its intensity
 * Source    our rule
 */
export function thresholdAfter({ draws }: SecondThreshold, review: SessionReview | null): WeightedThreshold {
  const x = draws.filter((value) => !Number.isNaN(value)).sort();
  const at = intensityOf(review);
  const below = at === null ? 0 : x.findLastIndex((value) => value < at) + 1;
  if (at === null || below === 0 || below === x.length) return { x, share: x.map(() => 1 / x.length) };
  const chance = review!.chance!;
  return { x, share: x.map((_, i) => (i < below ? chance / below : (1 - chance) / (x.length - below))) };
}

const intensityOf = (review: SessionReview | null): number | null =>
  review?.assessable && review.chance !== null && review.basis === 'intensity' ? review.intensity : null;

/** The least draw that this share of the weight lies at or below; NaN without draws. */
export function weightedQuantile({ x, share }: WeightedThreshold, p: number): number {
  let sum = 0;
  for (let i = 0; i < x.length; i++) {
    sum += share[i]!;
    // Equal shares add up to a hair less than they should.
    if (sum >= p - 1e-9) return x[i]!;
  }
  return x.at(-1) ?? Number.NaN;
}

/** Chance that the threshold lies at or above an intensity. */
export const chanceFrom = ({ x, share }: WeightedThreshold, intensity: number): number =>
  share.reduce((sum, part, i) => sum + (x[i]! >= intensity ? part : 0), 0);
