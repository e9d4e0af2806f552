import { bracketedNewton, type Differentiable } from '../../numerics/bracketedNewton.ts';
import { answerMark, type Mark, ON_LACTATE, type Place, scene } from '../construction.ts';
import type { Curve } from '../curves/curve.ts';
import { notConvex, singular } from '../refusal.ts';
import { give, refuse } from './answer.ts';
import { notCompiled } from './estimators/notCompiled.ts';
import type { Method } from './method.ts';

/** The tangents at both ends of a curve, where they meet, and the direction that halves the angle above them. */
class EndTangents implements Differentiable {
  #curve: Curve | null = null;
  x = Number.NaN;
  y = Number.NaN;
  /** Unit vectors' sum: not of length 1. */
  alongX = Number.NaN;
  alongY = Number.NaN;

  of(curve: Curve): void {
    this.#curve = curve;
    const [m1, m2] = [curve.slope(curve.lo), curve.slope(curve.hi)];
    const [y1, y2] = [curve.at(curve.lo), curve.at(curve.hi)];
    this.x = (y1 - y2 + m2 * curve.hi - m1 * curve.lo) / (m2 - m1);
    this.y = y1 + m1 * (this.x - curve.lo);
    const [l1, l2] = [Math.hypot(1, m1), Math.hypot(1, m2)];
    this.alongX = 1 / l2 - 1 / l1;
    this.alongY = m2 / l2 - m1 / l1;
  }

  /** How far along the bisector the curve is met; NaN when not inside the tested range. */
  meeting(): number {
    const curve = this.#curve!;
    const limit = this.alongX < 0 ? (curve.lo - this.x) / this.alongX : (curve.hi - this.x) / this.alongX;
    return bracketedNewton(this, 0, 0, limit);
  }

  /** Height of the bisector above the curve. */
  at(s: number): number {
    return this.y + s * this.alongY - this.#curve!.at(this.x + s * this.alongX);
  }

  slope(s: number): number {
    return this.alongY - this.#curve!.slope(this.x + s * this.alongX) * this.alongX;
  }
}

/**
 * Bisector of the end tangents: where the line that halves the angle between the tangents at both ends of an
 * exponential curve meets the curve.
 *
 * Departs   perhaps: the construction is uncertain. Nobody here has the paper; it is said to halve the angle of the
 *           two tangents, which is done here with 1 km/h as long as 1 mmol/L. Historical, and off unless asked for
 */
export const bisector: Method = {
  id: 'bisector',
  name: 'Bisector of the end tangents',
  claim: 'LT2',
  meaning:
    'Where the line that halves the angle between the first and the last slope of the curve meets the curve.',
  source:
    'After Bunc et al. 1985; 1987, Int J Sports Med 8:275–280 (from memory, its construction uncertain)',
  protocol: 'step',
  curve: 'exponential',
  anyCurve: false,
  minPoints: 5,
  maximal: true,
  discrete: false,
  alsoNeeds: ['running speed'],
  bias: 'An angle hangs on how long the axes are drawn, and this one on the first and the last stage as well.',
  shorterStages: 'unknown',
  refusals: ['E_SCALE', 'E_EDGE', 'E_NOT_CONVEX', 'E_SINGULAR'],
  off: true,
  refuses: ({ sport, axis }) =>
    sport === 'running' && axis === 'speed'
      ? null
      : {
          code: 'E_SCALE',
          reason: `It halves an angle, which depends on the unit of intensity, and none is published for ${sport}.`,
        },
  prepare: () => {
    const tangents = new EndTangents();
    return notCompiled((_y, curve, answer) => {
      tangents.of(curve!);
      const x = tangents.x + tangents.meeting() * tangents.alongX;
      if (x > curve!.lo && x < curve!.hi) give(answer, x, curve!.at(x));
      else refuse(answer, 'E_EDGE');
    });
  },
  explain: (code, { readings }) => {
    if (code === 'E_EDGE') return 'The bisector leaves the tested range before it meets the curve.';
    return code === 'E_NOT_CONVEX' ? notConvex() : singular(readings.x.length);
  },
  warnings: () => ['How the paper draws this line is uncertain: take it as history, not as a threshold.'],
  construct: (answer, situation) => ({
    axes: ON_LACTATE,
    marks: [...scene(situation), ...tangentsOf(situation.curve, answer), ...answerMark(answer)],
    caption:
      'The tangents at both ends and the line that halves their angle; the answer is where it meets the curve.',
  }),
};

function tangentsOf(curve: Curve | null, answer: { x: number; lactate: number } | null): Mark[] {
  if (curve?.status !== 'ok') return [];
  const tangents = new EndTangents();
  tangents.of(curve);
  const corner: Place = [tangents.x, tangents.y];
  const line = (from: Place, to: Place, role: 'tangent' | 'bisector', label: string): Mark => ({
    kind: 'line',
    from,
    to,
    role,
    label,
  });
  return [
    line([curve.lo, curve.at(curve.lo)], corner, 'tangent', 'first tangent'),
    line(corner, [curve.hi, curve.at(curve.hi)], 'tangent', 'last tangent'),
    ...(answer === null ? [] : [line(corner, [answer.x, answer.lactate], 'bisector', 'half the angle')]),
  ];
}
