import { quantiles } from '../../numerics/quantiles.ts';
import { type Rep, type Session, type SessionContext, workBefore } from './session.ts';
import type { DrawnSession } from './sessionDraws.ts';
import { lactateAfterRest, lactateInRep } from './sessionLevel.ts';

/** Lactate over one rep, had it been done right at the second threshold: the range that holds 80 % of the draws. */
export interface ThresholdCourse {
  rep: number;
  points: { minute: number; work: number; low: number; high: number }[];
}

/** Points along a rep. */
const POINTS = 8;

/** Where the readings of reps done right at the second threshold would lie, rep by rep. */
export function courseAtThreshold(
  { reps }: Session,
  { restMinutes, rest }: SessionContext,
  { held, courses }: Pick<DrawnSession, 'held' | 'courses'>,
): ThresholdCourse[] {
  const before = workBefore(reps);
  const starts = Float64Array.from(courses, (course) => course.rest);
  return reps.map((rep, i) => {
    if (i > 0)
      starts.forEach((end, d) => {
        starts[d] = lactateAfterRest(end, restMinutes, rest, courses[d]!);
      });
    const lactateAt = (minute: number) =>
      starts.map((start, d) => lactateInRep(start, held[d]!, minute, courses[d]!));
    const points = minutesOf(rep).map((minute) => {
      const [low, high] = quantiles(lactateAt(minute), [0.1, 0.9]).values;
      return { minute, work: before[i]! + minute, low: low!, high: high! };
    });
    starts.set(lactateAt(rep.minutes));
    return { rep: rep.number, points };
  });
}

const minutesOf = ({ minutes }: Rep): number[] =>
  Array.from({ length: POINTS + 1 }, (_, i) => (i * minutes) / POINTS);
