import { InputError, NotYetError } from '../../base/inputError.ts';
import type { CurveId } from '../stepTest.ts';
import type { Curve } from './curve.ts';
import { ExponentialCurve } from './exponentialCurve.ts';
import { polynomialCurve, splineCurve } from './linearCurves.ts';
import { RawCurve } from './rawCurve.ts';
import { SegmentedCurve } from './segmentedCurve.ts';
import { UnfittableCurve } from './unfittableCurve.ts';

interface Model {
  /** For headings and messages. */
  name: string;
  /** For a small panel or a column of a table. */
  short: string;
  /** Fewest distinct intensities that determine it. */
  minPoints: number;
  /** `weights` are the samples averaged into each point. */
  prepare(x: Float64Array, weights: Float64Array): Curve;
}

/** Every curve model there is, as tables and choices read them. */
export const MODELS: Record<CurveId, Model> = {
  raw: {
    name: 'straight lines between readings',
    short: 'straight lines',
    minPoints: 2,
    prepare: (x) => new RawCurve(x),
  },
  quadratic: {
    name: 'quadratic polynomial',
    short: 'quadratic',
    minPoints: 3,
    prepare: (x, w) => polynomialCurve('quadratic', x, w),
  },
  cubic: {
    name: 'cubic polynomial',
    short: 'cubic',
    minPoints: 4,
    prepare: (x, w) => polynomialCurve('cubic', x, w),
  },
  quartic: {
    name: 'quartic polynomial',
    short: 'quartic',
    minPoints: 5,
    prepare: (x, w) => polynomialCurve('quartic', x, w),
  },
  exponential: {
    name: 'exponential plus constant',
    short: 'exponential',
    minPoints: 4,
    prepare: (x, w) => new ExponentialCurve(x, w),
  },
  'two-segment': {
    name: 'line of two segments',
    short: 'two segments',
    minPoints: 5,
    prepare: (x, w) => new SegmentedCurve('two-segment', x, w),
  },
  'three-segment': {
    name: 'line of three segments',
    short: 'three segments',
    minPoints: 7,
    prepare: (x, w) => new SegmentedCurve('three-segment', x, w),
  },
  spline: { name: 'smoothing spline', short: 'spline', minPoints: 4, prepare: (x, w) => splineCurve(x, w) },
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
  return prepare(
    x,
    x.map((_, i) => count?.[i] ?? 1),
  );
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

/**
 * Fit a curve model to the readings of a test.
 *
 * @example
 * fitCurve({ x: [100, 150, 200, 250], y: [1, 1, 2, 6] }, { model: 'raw' }).crossing(4) // 225
 */
export function fitCurve(
  readings: { x: ArrayLike<number>; y: ArrayLike<number>; count?: ArrayLike<number> },
  { model }: { model: CurveId },
): FittedCurve {
  const x = Float64Array.from(readings.x);
  const y = Float64Array.from(readings.y);
  check(x, y, model);
  const curve = prepareCurve(model, x, readings.count);
  curve.fit(y);
  const residuals = y.map((value, i) => value - curve.at(x[i]!));
  const sse = residuals.reduce((sum, e, i) => sum + (readings.count?.[i] ?? 1) * e * e, 0);
  return Object.assign(curve, { x, y, residuals, sse });
}

function check(x: Float64Array, y: Float64Array, model: CurveId): void {
  if (!Object.hasOwn(MODELS, model)) {
    throw new InputError(`There is no curve "${model}"; the curves are ${Object.keys(MODELS).join(', ')}`);
  }
  if (x.length !== y.length) {
    throw new InputError(`Each intensity needs one lactate: there are ${x.length} and ${y.length}`);
  }
  const odd = x.findIndex((value, i) => !(Number.isFinite(value) && Number.isFinite(y[i])));
  if (odd >= 0) throw new InputError(`Point ${odd + 1} is not two numbers: ${x[odd]} and ${y[odd]}`);
  const low = x.findIndex((value, i) => i > 0 && value <= x[i - 1]!);
  if (low >= 0) {
    throw new InputError(`Intensities must ascend, but ${x[low]} follows ${x[low - 1]} at point ${low + 1}`);
  }
  const { name, minPoints } = MODELS[model];
  if (x.length < minPoints) {
    throw new NotYetError(
      `Waits for stages: this curve (${name}) needs at least ${minPoints} stages of different intensity with a ` +
        `lactate each; there ${x.length === 1 ? 'is 1' : `are ${x.length}`}.`,
    );
  }
}
