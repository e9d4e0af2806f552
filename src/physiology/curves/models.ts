import { InputError } from '../../base/inputError.ts';
import type { CurveId, Readings } from '../stepTest.ts';
import type { Curve } from './curve.ts';
import { ExponentialCurve } from './exponentialCurve.ts';
import { PolynomialCurve } from './polynomialCurve.ts';
import { RawCurve } from './rawCurve.ts';
import { SegmentedCurve } from './segmentedCurve.ts';
import { SplineCurve } from './splineCurve.ts';
import { UnfittableCurve } from './unfittableCurve.ts';

interface Model {
  /** For headings and messages. */
  name: string;
  /** Fewest distinct intensities that determine it. */
  minPoints: number;
  /** `weights` are the samples averaged into each point. */
  prepare(x: Float64Array, weights?: ArrayLike<number>): Curve;
}

/** Every curve model there is: the one place that knows them all. */
export const MODELS: Record<CurveId, Model> = {
  raw: { name: 'straight lines between readings', minPoints: 2, prepare: (x) => new RawCurve(x) },
  quadratic: {
    name: 'quadratic polynomial',
    minPoints: 3,
    prepare: (x, w) => new PolynomialCurve('quadratic', x, w),
  },
  cubic: { name: 'cubic polynomial', minPoints: 4, prepare: (x, w) => new PolynomialCurve('cubic', x, w) },
  quartic: {
    name: 'quartic polynomial',
    minPoints: 5,
    prepare: (x, w) => new PolynomialCurve('quartic', x, w),
  },
  exponential: {
    name: 'exponential plus constant',
    minPoints: 4,
    prepare: (x, w) => new ExponentialCurve(x, w),
  },
  'two-segment': {
    name: 'line of two segments',
    minPoints: 5,
    prepare: (x, w) => new SegmentedCurve('two-segment', x, w),
  },
  'three-segment': {
    name: 'line of three segments',
    minPoints: 7,
    prepare: (x, w) => new SegmentedCurve('three-segment', x, w),
  },
  spline: { name: 'smoothing spline', minPoints: 4, prepare: (x, w) => new SplineCurve(x, w) },
};

/**
 * A curve prepared for fixed intensities, to be fitted to readings with `fit(y)`. Too few intensities for the
 * model give a curve whose status is always 'singular'.
 *
 * @param count samples averaged into each point; a point of two counts double
 */
export function prepareCurve(model: CurveId, x: Float64Array, count?: ArrayLike<number>): Curve {
  const { minPoints, prepare } = MODELS[model];
  if (x.length < minPoints) return new UnfittableCurve(model, minPoints, x);
  return prepare(x, count);
}

/** A curve fitted to one set of readings, with what is left over. */
export type FittedCurve = Curve & {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** Reading less curve, mmol/L. */
  readonly residuals: Float64Array;
  /** Sum of squared residuals, each counted as often as samples were averaged into its reading. */
  readonly sse: number;
};

/** Fit a curve model to the readings of a test. */
export function fitCurve(
  readings: Pick<Readings, 'x' | 'y'> & Partial<Pick<Readings, 'count'>>,
  { model }: { model: CurveId },
): FittedCurve {
  const { x, y, count } = readings;
  const { name, minPoints } = MODELS[model];
  if (x.length < minPoints) {
    throw new InputError(
      `A ${name} needs at least ${minPoints} stages with distinct intensities; there are ${x.length}`,
    );
  }
  const curve = prepareCurve(model, x, count);
  curve.fit(y);
  const residuals = y.map((value, i) => value - curve.at(x[i]!));
  const sse = residuals.reduce((sum, e, i) => sum + (count?.[i] ?? 1) * e * e, 0);
  return Object.assign(curve, { x, y, residuals, sse });
}
