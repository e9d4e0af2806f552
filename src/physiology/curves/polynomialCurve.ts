import { crossingBetween, polynomialCrossing } from '../../numerics/polynomialCrossing.ts';
import { RealRoots } from '../../numerics/realRoots.ts';
import type { CurveId } from '../stepTest.ts';
import type { FitStatus } from './curve.ts';
import { SmoothCurve } from './smoothCurve.ts';

/**
 * Least-squares polynomial in u = (x − middle)/half range, u in [−1, 1]; `polynomialCurve` makes one.
 *
 * Model     lactate = Σ c_k·u^k, degree 2, 3 or 4
 * Shape     x ascending, n >= degree + 1; the projection has a row of n numbers for each coefficient
 * Accuracy  11 digits or more against 40-digit arithmetic (tests/physiology/curves/references.test.ts)
 * Cost      a fit is (degree + 1)·n multiplications, and the turning points in closed form up to degree 3
 */
export class PolynomialCurve extends SmoothCurve {
  readonly degree: i32;
  /** Coefficients in u, lowest power first, five of them: those above the degree stay 0. */
  readonly coefficients: Float64Array = new Float64Array(5);
  readonly projection: Float64Array;
  readonly #middle: number;
  readonly #half: number;
  readonly #perHalf: number;
  readonly #finder: RealRoots = new RealRoots();
  readonly #derivative: Float64Array = new Float64Array(5);
  readonly #roots: Float64Array = new Float64Array(6);
  readonly #touching: Float64Array = new Float64Array(5);

  constructor(model: CurveId, degree: i32, x: Float64Array, projection: Float64Array) {
    super(model, degree + 1, x);
    this.degree = degree;
    this.projection = projection;
    this.#middle = (this.lo + this.hi) / 2;
    this.#half = (this.hi - this.lo) / 2;
    this.#perHalf = 1 / this.#half;
  }

  #scaled(x: number): number {
    return (x - this.#middle) * this.#perHalf;
  }

  fit(y: Float64Array): FitStatus {
    const projection = this.projection;
    const n = y.length;
    for (let k = 0, at = 0; k <= this.degree; k++) {
      let sum: number = 0;
      for (let i = 0; i < n; i++, at++) sum += projection[at]! * y[i]!;
      this.coefficients[k] = sum;
    }
    return this.settle();
  }

  at(x: number): number {
    const c = this.coefficients;
    const u = this.#scaled(x);
    const square = u * u;
    return c[0]! + u * c[1]! + square * (c[2]! + u * c[3]! + square * c[4]!);
  }

  slope(x: number): number {
    const c = this.coefficients;
    const u = this.#scaled(x);
    return (c[1]! + u * (2 * c[2]! + u * (3 * c[3]! + u * 4 * c[4]!))) * this.#perHalf;
  }

  curvature(x: number): number {
    const c = this.coefficients;
    const u = this.#scaled(x);
    return (2 * c[2]! + u * (6 * c[3]! + u * 12 * c[4]!)) * this.#perHalf * this.#perHalf;
  }

  protected override between(
    level: number,
    left: number,
    atLeft: number,
    right: number,
    atRight: number,
  ): number {
    const u = crossingBetween(
      this.coefficients,
      level,
      this.#scaled(left),
      atLeft,
      this.#scaled(right),
      atRight,
    );
    return Math.min(right, Math.max(left, this.#middle + this.#half * u));
  }

  /**
   * Where x·f′(x) − f(x) is 0 between two points without an inflection in between; NaN without a change of sign there.
   * With x = middle + half·u it is a polynomial of the same degree.
   */
  touchingFromOrigin(left: number, right: number): number {
    const c = this.coefficients;
    const t = this.#touching;
    const shift = this.#middle * this.#perHalf;
    for (let k = 0; k < 4; k++) {
      const power: number = k;
      t[k] = (power - 1) * c[k]! + shift * (power + 1) * c[k + 1]!;
    }
    t[4] = 3 * c[4]!;
    return this.#middle + this.#half * polynomialCrossing(t, 0, this.#scaled(left), this.#scaled(right));
  }

  protected placesWithSlope(slope: number, out: Float64Array): i32 {
    const c = this.coefficients;
    const d = this.#derivative;
    d[0] = c[1]! - slope * this.#half;
    d[1] = 2 * c[2]!;
    d[2] = 3 * c[3]!;
    d[3] = 4 * c[4]!;
    const found = this.#finder.find(d, this.degree - 1, -1, 1, out);
    for (let i = 0; i < found; i++) out[i] = this.#middle + this.#half * out[i]!;
    return found;
  }

  writeInflections(out: Float64Array): i32 {
    const c = this.coefficients;
    const d = this.#derivative;
    d[0] = 2 * c[2]!;
    d[1] = 6 * c[3]!;
    d[2] = 12 * c[4]!;
    const roots = this.#finder.find(d, this.degree - 2, -1, 1, this.#roots);
    let found = 0;
    for (let i = 0; i < roots; i++) {
      const u = this.#roots[i]!;
      if (u > -1 && u < 1) out[found++] = this.#middle + this.#half * u;
    }
    return found;
  }
}
