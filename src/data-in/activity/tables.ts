import { formatNumber } from '../../base/format.ts';
import type { GridValue } from '../../base/grid.ts';
import type { Axis } from '../../base/units.ts';
import type { Activity, Span } from './activity.ts';
import { secondBySecond } from './secondBySecond.ts';
import { detectSteps } from './steps.ts';
import { intensityOf, type Stretch } from './stretches.ts';

/** Below this share of the usual intensity a stretch is a break (our rule). */
const BREAK = 0.3;
/** A lap shorter than this is a slip of the thumb, s. */
const SHORTEST_LAP = 5;

const HEADINGS: Record<Axis, string> = { power: 'power (W)', speed: 'speed (km/h)' };
const DECIMALS: Record<Axis, number> = { power: 0, speed: 2 };

/** The laps of a recording that may be stages or reps. */
const lapsOf = ({ laps }: Activity): Span[] => laps.filter(({ start, end }) => end - start >= SHORTEST_LAP);

/** Whether a recording can be cut by its laps. */
export const hasLaps = (activity: Activity): boolean => lapsOf(activity).length > 1;

/**
 * How a recording is cut at first: by its laps, if it has two or more, else where the intensity steps; the latter also when
 * it is asked for, since a device may lap by itself. Whoever looks at it may move the ends.
 */
export function firstSpans(
  activity: Activity,
  axis: Axis,
  by: 'laps' | 'steps' = 'laps',
): { spans: Span[]; by: 'laps' | 'steps' } {
  if (by === 'laps' && hasLaps(activity)) return { spans: lapsOf(activity), by: 'laps' };
  const values = intensityOf(activity, axis);
  if (!values) return { spans: [{ start: 0, end: activity.seconds.at(-1)! }], by: 'steps' };
  return { spans: stepsIn(secondBySecond(activity, values)), by: 'steps' };
}

/** Steps in the seconds that were recorded; pauses and gaps belong to none. */
function stepsIn(values: Float64Array): Span[] {
  const known: number[] = [];
  values.forEach((value, second) => {
    if (!Number.isNaN(value)) known.push(second);
  });
  const steps = detectSteps(Float64Array.from(known, (second) => values[second]!));
  return steps
    .filter(({ start, end }) => end > start)
    .map(({ start, end }) => ({ start: known[start]!, end: known[end - 1]! + 1 }));
}

function usualIntensity(stretches: readonly Stretch[]): number {
  const known = stretches.flatMap(({ intensity }) => (intensity ? [intensity] : [])).sort((a, b) => a - b);
  return known[known.length >> 1] ?? 0;
}

/** The stretches that were ridden, run or rowed: without breaks and without those that have no intensity. */
export function withoutBreaks(stretches: readonly Stretch[]): Stretch[] {
  const least = BREAK * usualIntensity(stretches);
  return stretches.filter(({ intensity }) => intensity !== null && intensity > least);
}

/**
 * The reps of a session: the stretches above the widest gap between the intensities of all, breaks included; all of them
 * when no gap is wider than a tenth of the hardest.
 */
export function repsAmong(stretches: readonly Stretch[]): Stretch[] {
  const known = stretches.filter(({ intensity }) => intensity !== null);
  const levels = known.map(({ intensity }) => intensity!).sort((a, b) => a - b);
  const gaps = levels.slice(1).map((level, i) => level - levels[i]!);
  const widest = Math.max(0, ...gaps);
  if (!(widest > 0.1 * (levels.at(-1) ?? 0))) return known;
  const limit = levels[gaps.lastIndexOf(widest)]! + widest / 2;
  return known.filter(({ intensity }) => intensity! > limit);
}

const text = (value: number | null, decimals: number) =>
  value === null ? '' : formatNumber(value, decimals);

/** A table of stages for `readStepTest`. */
export const stageTable = (
  stretches: readonly Stretch[],
  axis: Axis,
  lactates: readonly (number | null)[] = [],
): GridValue => ({
  headings: ['stage', HEADINGS[axis], 'heart rate (bpm)', 'duration (min)', 'lactate (mmol/L)'],
  rows: stretches.map(({ intensity, heartRate, minutes }, i) => [
    String(i + 1),
    text(intensity, DECIMALS[axis]),
    text(heartRate, 0),
    text(minutes, 2),
    lactates[i] == null ? '' : String(lactates[i]),
  ]),
});

/** A table of reps for `readSession`, with the end of each as the minute of its readings. */
export const repTable = (
  stretches: readonly Stretch[],
  axis: Axis,
  lactates: readonly (number | null)[] = [],
): GridValue => {
  const stages = stageTable(stretches, axis, lactates);
  return { headings: ['rep', ...stages.headings.slice(1)], rows: stages.rows };
};
