import { leastSquares } from '../../numerics/leastSquares.ts';
import { separableFit } from '../../numerics/separableFit.ts';
import { ExponentialCurve } from './exponentialCurve.ts';
import { powersOfIntensity } from './linearCurves.ts';
import type { FittedCurve } from './models.ts';
import { PolynomialCurve } from './polynomialCurve.ts';
import { SegmentedCurve } from './segmentedCurve.ts';

/** A fitted parameter of a curve with its standard error. */
export interface CurveParameter {
  /** As in the formula of the curve. */
  name: string;
  value: number;
  /** From the residuals; null where there is none (breakpoints, or no degrees of freedom). */
  standardError: number | null;
}

/** The numbers that define a fitted curve, in the intensity's own unit. */
export function parametersOf(curve: FittedCurve, weights: ArrayLike<number>): CurveParameter[] {
  if (curve instanceof PolynomialCurve) return polynomialParameters(curve, weights);
  if (curve instanceof ExponentialCurve) return exponentialParameters(curve, weights);
  if (curve instanceof SegmentedCurve) return segmentParameters(curve);
  return [];
}

const named = (name: string, value: number, standardError: number): CurveParameter => ({
  name,
  value,
  standardError: Number.isFinite(standardError) ? standardError : null,
});

function polynomialParameters(
  curve: PolynomialCurve & FittedCurve,
  weights: ArrayLike<number>,
): CurveParameter[] {
  const coefficients = powersOfIntensity(curve);
  const powers = Array.from(coefficients, (_, k) => curve.x.map((x) => x ** k));
  const { standardErrors } = leastSquares(powers, curve.y, { weights });
  return Array.from(coefficients, (c, k) => named(`d${k}`, c, standardErrors[k]!));
}

/** The general fit started at the best rate stays there, and knows the standard errors. */
function exponentialParameters(
  curve: ExponentialCurve & FittedCurve,
  weights: ArrayLike<number>,
): CurveParameter[] {
  const { constant, amplitude, rate, lo, x, y } = curve;
  const model = {
    basis: ([c]: Float64Array) => [x.map(() => 1), x.map((v) => Math.exp(c! * (v - lo)))],
    derivatives: ([c]: Float64Array) => [[x.map(() => 0), x.map((v) => (v - lo) * Math.exp(c! * (v - lo)))]],
  };
  const { standardErrors } = separableFit(model, y, [rate], { weights });
  const values = { a: constant, 'b·e^(c·x₁)': amplitude, c: rate };
  return Object.entries(values).map(([name, value], k) => named(name, value, standardErrors[k]!));
}

function segmentParameters(curve: SegmentedCurve): CurveParameter[] {
  const starts = [curve.lo, ...curve.breakpoints];
  return [
    ...Array.from(curve.breakpoints, (k, j) => named(`breakpoint ${j + 1}`, k, NaN)),
    ...starts.map((x, j) => named(`slope ${j + 1}`, curve.slope(x), NaN)),
  ];
}
