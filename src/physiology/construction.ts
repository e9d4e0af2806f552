import type { Curve } from './curves/curve.ts';
import type { Situation } from './methods/method.ts';
import { lactateText } from './refusal.ts';

/** A place in a picture: along its horizontal and its vertical axis. */
export type Place = readonly [x: number, y: number];

/** One thing in the picture of how a method finds its answer, in the quantities of the axes. */
export type Mark =
  | { kind: 'readings'; x: number[]; y: number[] }
  | { kind: 'curve'; x: number[]; y: number[]; label: string }
  /** A lactate right across the picture. */
  | { kind: 'level'; y: number; label: string }
  /** A place on the horizontal axis, right up the picture. */
  | { kind: 'upright'; x: number; label: string }
  | {
      kind: 'line';
      from: Place;
      to: Place;
      role: 'chord' | 'tangent' | 'piece' | 'bisector' | 'rise';
      label: string;
    }
  /** The shortest way from a point to a line, at right angles to it as drawn. */
  | { kind: 'drop'; from: Place; onto: readonly [Place, Place]; label: string }
  | { kind: 'point'; at: Place; role: 'anchor' | 'corner' | 'answer'; label: string }
  /** A stretch of the horizontal axis. */
  | { kind: 'span'; from: number; to: number; label: string };

/**
 * What the axes of a picture measure: lactate over intensity or over time; lactate per unit of intensity; the rise of
 * lactate from minute 10 to minute 30. `logarithmic` goes for both.
 */
export interface Axes {
  x: 'intensity' | 'minute';
  y: 'lactate' | 'equivalent' | 'rise';
  logarithmic: boolean;
}

/** How a method finds its answer on one test, as data that one chart can draw for every method. */
export interface Construction {
  axes: Axes;
  marks: Mark[];
  /** One sentence on what to look at. */
  caption: string;
}

/** The axes of most methods: lactate over intensity. */
export const ON_LACTATE: Axes = { x: 'intensity', y: 'lactate', logarithmic: false };

/** Points that a curve is drawn through. */
const CURVE_POINTS = 121;

/** A function over an interval as a mark; none where it has no value. */
export function drawn(f: (x: number) => number, from: number, to: number, label: string): Mark[] {
  const x = Array.from({ length: CURVE_POINTS }, (_, i) => from + ((to - from) * i) / (CURVE_POINTS - 1));
  const y = x.map(f);
  return y.every(Number.isFinite) ? [{ kind: 'curve', x, y, label }] : [];
}

/** The readings, and the fitted curve when there is one. */
export function scene({ readings, curve }: Pick<Situation, 'readings' | 'curve'>): Mark[] {
  const { x, y } = readings;
  const points: Mark = { kind: 'readings', x: [...x], y: [...y] };
  if (curve?.status !== 'ok') return [points];
  return [points, ...drawn((at) => curve.at(at), curve.lo, curve.hi, 'fitted curve')];
}

/** A lactate level as a mark. */
export const levelMark = (y: number, what = 'level'): Mark => ({
  kind: 'level',
  y,
  label: `${what} ${lactateText(y)}`,
});

/** The answer as a mark; none when the method refused. */
export const answerMark = (answer: { x: number; lactate: number } | null): Mark[] =>
  answer === null
    ? []
    : [{ kind: 'point', at: [answer.x, answer.lactate], role: 'answer', label: 'threshold' }];

/** A chord, and with an answer the touching line parallel to it and the way between them. */
export function chordMarks(
  curve: Curve | null,
  from: Place,
  to: Place,
  answer: { x: number; lactate: number } | null,
) {
  const marks: Mark[] = [{ kind: 'line', from, to, role: 'chord', label: 'line between the ends' }];
  if (answer === null || curve === null) return marks;
  const at: Place = [answer.x, answer.lactate];
  marks.push(tangentMark(at, (to[1] - from[1]) / (to[0] - from[0]), from[0], to[0], 'parallel to it'));
  marks.push({ kind: 'drop', from: at, onto: [from, to], label: 'greatest distance' });
  return marks;
}

/** A line of this slope through a place, drawn from one end of the horizontal axis to the other. */
export const tangentMark = (at: Place, slope: number, from: number, to: number, label: string): Mark => ({
  kind: 'line',
  from: [from, at[1] + slope * (from - at[0])],
  to: [to, at[1] + slope * (to - at[0])],
  role: 'tangent',
  label,
});
