import { chiSquareTail } from '../../numerics/chiSquare.ts';
import type { CurveId, Readings } from '../stepTest.ts';
import type { FitStatus } from './curve.ts';
import { leaveOneOutError } from './leaveOneOut.ts';
import { leveragesOf } from './linearCurves.ts';
import { type FittedCurve, fitCurve, MODELS } from './models.ts';
import { type CurveParameter, parametersOf } from './parameters.ts';
import { PolynomialCurve } from './polynomialCurve.ts';
import { type CurveShape, shapeOf } from './shape.ts';

/** How well one curve model describes one test. Null marks what these readings cannot tell. */
export interface CurveReport {
  model: CurveId;
  name: string;
  status: FitStatus;
  parameters: CurveParameter[];
  /** Reading less curve, mmol/L. */
  residuals: Float64Array;
  /** Their signs in order, as + − 0. */
  signs: string;
  sse: number;
  /** mmol/L; null without degrees of freedom. */
  residualSd: number | null;
  /** Root mean square error of predicting each inner reading from the others, mmol/L: ranks the curves. */
  leaveOneOut: number | null;
  /** Akaike's criterion with its small-sample correction: a hint only, for that correction rules at 6 to 8 stages. */
  aicc: number | null;
  /** Whether residuals are larger than the readings' own errors explain: a small p says the curve is wrong. */
  inadequacy: { chiSquare: number; degreesOfFreedom: number; p: number } | null;
  /** The reading that fits worst: residual over its own SD, reckoned without that reading; above 3 look at it. */
  worst: { index: number; studentised: number } | null;
  shape: CurveShape;
}

type Points = Pick<Readings, 'x' | 'y' | 'count'>;

/** Readings of fitted curves closer than this share of the largest reading are rounding. */
const ROUNDING = 1e-12;

/**
 * Fit several curve models to the same readings and report on each, in the order asked for. Models that the
 * stages are too few for are left out.
 *
 * @param sigma standard deviation of each reading's own error, mmol/L
 */
export function compareCurves(
  readings: Points,
  { models, sigma }: { models?: readonly CurveId[]; sigma?: ArrayLike<number> } = {},
): CurveReport[] {
  const wanted = models ?? (Object.keys(MODELS) as CurveId[]);
  return wanted
    .filter((model) => readings.x.length >= MODELS[model].minPoints)
    .map((model) => report(fitCurve(readings, { model }), readings, sigma));
}

function report(curve: FittedCurve, readings: Points, sigma?: ArrayLike<number>): CurveReport {
  const { model, status, residuals, sse } = curve;
  const fitted = status === 'ok';
  const freedom = residuals.length - curve.parameters;
  return {
    model,
    name: MODELS[model].name,
    status,
    parameters: fitted ? parametersOf(curve, readings.count) : [],
    residuals,
    signs: signsOf(curve),
    sse,
    residualSd: fitted && freedom > 0 ? Math.sqrt(sse / freedom) : null,
    leaveOneOut: fitted ? leaveOneOutError(curve, readings) : null,
    aicc: fitted ? aiccOf(curve) : null,
    inadequacy: fitted && sigma ? inadequacyOf(residuals, sigma, freedom) : null,
    worst: fitted ? worstOf(curve, readings.count) : null,
    shape: shapeOf(curve),
  };
}

function signsOf({ residuals, y }: FittedCurve): string {
  const least = ROUNDING * Math.max(...y.map(Math.abs));
  return Array.from(residuals, (e) => (Math.abs(e) <= least ? '0' : e > 0 ? '+' : '−')).join('');
}

/**
 * n·ln(SSE/n) + 2k + 2k(k + 1)/(n − k − 1), k the free parameters and the residual variance; null when
 * n <= k + 1, for curves that are no likelihood fit, and for a fit without residuals.
 *
 * Source    Hurvich & Tsai 1989, Biometrika 76:297–307 (from memory)
 */
function aiccOf({ model, parameters, residuals, sse, y }: FittedCurve): number | null {
  const n = residuals.length;
  const k = parameters + 1;
  const exact = sse <= n * (ROUNDING * Math.max(...y.map(Math.abs))) ** 2;
  if (model === 'raw' || model === 'spline' || n <= k + 1 || exact) return null;
  return n * Math.log(sse / n) + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
}

function inadequacyOf(residuals: Float64Array, sigma: ArrayLike<number>, degreesOfFreedom: number) {
  if (!(degreesOfFreedom > 0)) return null;
  // Against an exact reading any residual is impossible, and none is no evidence.
  const chiSquare = residuals.reduce((sum, e, i) => sum + (e === 0 ? 0 : (e / sigma[i]!) ** 2), 0);
  const p = Number.isFinite(chiSquare) ? chiSquareTail(chiSquare, degreesOfFreedom) : 0;
  return { chiSquare, degreesOfFreedom, p };
}

/** Externally studentised residuals need a curve that is linear in its parameters and 2 degrees of freedom. */
function worstOf(curve: FittedCurve, weights: ArrayLike<number>): CurveReport['worst'] {
  const leverages = leveragesOf(curve, curve.x);
  const freedom = curve.residuals.length - curve.parameters;
  if (!(curve instanceof PolynomialCurve) || !leverages || freedom < 2) return null;
  let worst: CurveReport['worst'] = null;
  curve.residuals.forEach((residual, index) => {
    const share = 1 - leverages[index]!;
    const square = weights[index]! * residual * residual;
    const varianceWithout = (curve.sse - square / share) / (freedom - 1);
    // Without that reading the rest may lie on the curve exactly: then there is nothing to compare it with.
    if (!(varianceWithout > ROUNDING * curve.sse)) return;
    const studentised = residual * Math.sqrt(weights[index]! / (varianceWithout * share));
    if (Math.abs(studentised) > Math.abs(worst?.studentised ?? 0)) worst = { index, studentised };
  });
  return worst;
}
