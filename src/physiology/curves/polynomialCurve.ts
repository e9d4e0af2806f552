import { HouseholderQr } from '../../numerics/householderQr.ts';
import { polynomialCrossing } from '../../numerics/polynomialCrossing.ts';
import { realRoots } from '../../numerics/realRoots.ts';
import type { FitStatus } from './curve.ts';
import { SmoothCurve } from './smoothCurve.ts';

const DEGREES = { quadratic: 2, cubic: 3, quartic: 4 } as const;
type PolynomialModel = keyof typeof DEGREES;

/**
 * Least-squares polynomial in u = (x − middle)/half range, u in [−1, 1].
 *
 * Model     lactate = Σ c_k·u^k, degree 2, 3 or 4
 * Shape     x ascending, n >= degree + 1; weights one per point, if any
 * Accuracy  11 digits or more against 40-digit arithmetic (tests/physiology/curves/references.test.ts)
 * Cost      the projection from readings to coefficients is made once; a fit is (degree + 1)·n multiplications
 * Source    ordinary least squares by Householder QR
 */
export class PolynomialCurve extends SmoothCurve {
  readonly model: PolynomialModel;
  readonly parameters: number;
  /** Coefficients in u, lowest power first. */
  readonly coefficients: Float64Array;
  /** Leverage of each reading: the diagonal of the hat matrix. */
  readonly leverages: Float64Array;
  /** The same, five of them: those above the degree stay 0. */
  readonly #c = new Float64Array(5);
  readonly #derivative: Float64Array;
  readonly #second: Float64Array;
  readonly #middle: number;
  readonly #half: number;
  readonly #projection: Float64Array[];
  readonly #roots = new Float64Array(6);
  readonly #touching = new Float64Array(5);

  constructor(model: PolynomialModel, x: Float64Array, weights?: ArrayLike<number>) {
    super(x);
    const degree = DEGREES[model];
    this.model = model;
    this.parameters = degree + 1;
    this.#middle = (this.lo + this.hi) / 2;
    this.#half = (this.hi - this.lo) / 2;
    this.coefficients = this.#c.subarray(0, degree + 1);
    this.#derivative = new Float64Array(degree);
    this.#second = new Float64Array(degree - 1);
    const powers = Array.from({ length: degree + 1 }, (_, k) => x.map((value) => this.#scaled(value) ** k));
    this.#projection = new HouseholderQr(powers, weights).projection();
    this.leverages = x.map((_, i) => powers.reduce((sum, p, k) => sum + p[i]! * this.#projection[k]![i]!, 0));
  }

  #scaled(x: number): number {
    return (x - this.#middle) / this.#half;
  }

  fit(y: Float64Array): FitStatus {
    for (let k = 0; k < this.parameters; k++) {
      const row = this.#projection[k]!;
      let sum = 0;
      for (let i = 0; i < row.length; i++) sum += row[i]! * y[i]!;
      this.coefficients[k] = sum;
    }
    return this.settle();
  }

  at(x: number): number {
    const c = this.#c;
    const u = (x - this.#middle) / this.#half;
    return c[0]! + u * (c[1]! + u * (c[2]! + u * (c[3]! + u * c[4]!)));
  }

  slope(x: number): number {
    const c = this.#c;
    const u = (x - this.#middle) / this.#half;
    return (c[1]! + u * (2 * c[2]! + u * (3 * c[3]! + u * 4 * c[4]!))) / this.#half;
  }

  curvature(x: number): number {
    const c = this.#c;
    const u = (x - this.#middle) / this.#half;
    return (2 * c[2]! + u * (6 * c[3]! + u * 12 * c[4]!)) / (this.#half * this.#half);
  }

  protected override between(level: number, left: number, right: number): number {
    const u = polynomialCrossing(this.#c, level, this.#scaled(left), this.#scaled(right));
    return Math.min(right, Math.max(left, this.#middle + this.#half * u));
  }

  /**
   * Where x·f′(x) − f(x) is 0 between two points without an inflection in between; NaN without a change of sign there.
   * With x = middle + half·u it is a polynomial of the same degree.
   */
  touchingFromOrigin(left: number, right: number): number {
    const c = this.#c;
    const t = this.#touching;
    const shift = this.#middle / this.#half;
    for (let k = 0; k < 4; k++) t[k] = (k - 1) * c[k]! + shift * (k + 1) * c[k + 1]!;
    t[4] = 3 * c[4]!;
    return this.#middle + this.#half * polynomialCrossing(t, 0, this.#scaled(left), this.#scaled(right));
  }

  protected placesWithSlope(slope: number, out: Float64Array): number {
    for (let k = 1; k < this.parameters; k++) this.#derivative[k - 1] = k * this.coefficients[k]!;
    this.#derivative[0]! -= slope * this.#half;
    const found = realRoots(this.#derivative, -1, 1, this.#roots);
    for (let i = 0; i < found; i++) out[i] = this.#middle + this.#half * this.#roots[i]!;
    return found;
  }

  writeInflections(out: Float64Array): number {
    for (let k = 2; k < this.parameters; k++) this.#second[k - 2] = k * (k - 1) * this.coefficients[k]!;
    const roots = realRoots(this.#second, -1, 1, this.#roots);
    let found = 0;
    for (let i = 0; i < roots; i++) {
      const u = this.#roots[i]!;
      if (u > -1 && u < 1) out[found++] = this.#middle + this.#half * u;
    }
    return found;
  }

  /** Coefficients of 1, x, x², … in the intensity's own unit. */
  powersOfIntensity(): Float64Array {
    const raw = new Float64Array(this.parameters);
    // Horner on polynomials: multiply what there is by (x − middle)/half, then add the next coefficient.
    for (let k = this.parameters - 1; k >= 0; k--) {
      for (let j = raw.length - 1; j >= 0; j--) {
        raw[j] = ((j > 0 ? raw[j - 1]! : 0) - this.#middle * raw[j]!) / this.#half;
      }
      raw[0]! += this.coefficients[k]!;
    }
    return raw;
  }
}
