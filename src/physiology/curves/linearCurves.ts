import { HouseholderQr } from '../../numerics/householderQr.ts';
import { SmoothingSpline } from '../../numerics/smoothingSpline.ts';
import { PolynomialCurve } from './polynomialCurve.ts';
import { SplineCurve } from './splineCurve.ts';

// Curves that are linear in the readings: what leads from readings to curve is worked out once, here.

const DEGREES = { quadratic: 2, cubic: 3, quartic: 4 } as const;

/** Intensities scaled to u in [−1, 1]. */
function scaled(x: Float64Array): Float64Array {
  const [lo, hi] = [x[0]!, x[x.length - 1]!];
  return x.map((value) => (value - (lo + hi) / 2) / ((hi - lo) / 2));
}

const rows = (matrix: readonly Float64Array[]): Float64Array =>
  Float64Array.from(matrix.flatMap((row) => [...row]));

/**
 * A polynomial to be fitted by least squares.
 *
 * Shape     x ascending, n >= degree + 1; weights one per point, if any
 * Source    ordinary least squares by Householder QR
 */
export function polynomialCurve(
  model: keyof typeof DEGREES,
  x: Float64Array,
  weights?: ArrayLike<number>,
): PolynomialCurve {
  const u = scaled(x);
  const powers = Array.from({ length: DEGREES[model] + 1 }, (_, k) => u.map((value) => value ** k));
  const projection = new HouseholderQr(powers, weights).projection();
  return new PolynomialCurve(model, DEGREES[model], x, rows(projection));
}

/** Effective degrees of freedom: fixed, so that the same test always gives the same curve (our rule). */
const effectiveDf = (points: number) => Math.min(4.5, points - 1.5);

/** A smoothing spline to be fitted; x ascending, n >= 4, weights one per point, if any. */
export function splineCurve(x: Float64Array, weights?: ArrayLike<number>): SplineCurve {
  const width = x[x.length - 1]! - x[0]!;
  const freedom = effectiveDf(x.length);
  const z = x.map((value) => (value - x[0]!) / width);
  const { hat, bending } = new SmoothingSpline(z, freedom, weights);
  return new SplineCurve(x, freedom, rows(hat), rows(bending));
}

/** Leverage of each reading, the diagonal of the hat matrix; null for curves that are not linear in the readings. */
export function leveragesOf(curve: object, x: Float64Array): Float64Array | null {
  const n = x.length;
  if (curve instanceof SplineCurve) return x.map((_, i) => curve.hat[i * n + i]!);
  if (!(curve instanceof PolynomialCurve)) return null;
  const u = scaled(x);
  return x.map((_, i) => {
    let leverage = 0;
    for (let k = 0; k <= curve.degree; k++) leverage += u[i]! ** k * curve.projection[k * n + i]!;
    return leverage;
  });
}

/** Coefficients of a polynomial in 1, x, x² … in the intensity's own unit. */
export function powersOfIntensity({ degree, coefficients, lo, hi }: PolynomialCurve): Float64Array {
  const [middle, half] = [(lo + hi) / 2, (hi - lo) / 2];
  const raw = new Float64Array(degree + 1);
  // Horner on polynomials: multiply what there is by (x − middle)/half, then add the next coefficient.
  for (let k = degree; k >= 0; k--) {
    for (let j = raw.length - 1; j >= 0; j--) {
      raw[j] = ((j > 0 ? raw[j - 1]! : 0) - middle * raw[j]!) / half;
    }
    raw[0]! += coefficients[k]!;
  }
  return raw;
}
