import { bracketedNewton, type Differentiable } from '../numerics/bracketedNewton.ts';
import type { Curve } from './curves/curve.ts';
import { ExponentialCurve } from './curves/exponentialCurve.ts';
import { PolynomialCurve } from './curves/polynomialCurve.ts';
import { SmoothCurve } from './curves/smoothCurve.ts';
import { StraightPieces } from './curves/straightPieces.ts';

/** Ratios closer than this share are equal; of equal ones the least intensity counts (our rule). */
const EQUAL: number = 1e-12;

/**
 * Where lactate per unit of intensity, f(x)/x, is least on a curve; an end of the tested range when the ratio
 * still falls there. Prepared once for the number of stages of a test; `of` allocates nothing.
 *
 * Model     on a straight piece the ratio has no low point inside, so there it is a corner. On a smooth curve a line
 *           through the origin touches it there: t(x) = x·f′(x) − f(x) is 0. Since t′ = x·f″, t is monotone between
 *           inflections and each such part holds one root at most, so none is missed
 * Shape     intensities above 0
 */
export class LeastRatio implements Differentiable {
  readonly #inflections: Float64Array;
  #curve: Curve | null = null;
  #best: number = NaN;
  #least: number = NaN;

  constructor(stages: i32) {
    this.#inflections = new Float64Array(stages + 2);
  }

  of(curve: Curve): number {
    if (Number.isNaN(curve.leastRatio)) curve.leastRatio = this.#find(curve);
    return curve.leastRatio;
  }

  #find(curve: Curve): number {
    this.#curve = curve;
    this.#best = curve.lo;
    this.#least = curve.at(curve.lo) / curve.lo;
    if (curve instanceof StraightPieces) this.#corners(curve as StraightPieces);
    else this.#touching(curve);
    this.#offer(curve.hi);
    return this.#best;
  }

  #corners(curve: StraightPieces): void {
    for (let i = 0; i < curve.cornerX.length; i++) this.#offer(curve.cornerX[i]!);
  }

  #touching(curve: Curve): void {
    const inflections = this.#inflections;
    const count = curve instanceof SmoothCurve ? (curve as SmoothCurve).writeInflections(inflections) : 0;
    let from = curve.lo;
    for (let i = 0; i <= count; i++) {
      const to = i < count ? inflections[i]! : curve.hi;
      this.#offer(this.#touchingBetween(curve, from, to));
      from = to;
    }
  }

  #touchingBetween(curve: Curve, from: number, to: number): number {
    if (curve instanceof PolynomialCurve) return (curve as PolynomialCurve).touchingFromOrigin(from, to);
    if (curve instanceof ExponentialCurve && (curve as ExponentialCurve).constant > 0)
      return (curve as ExponentialCurve).touchingFromOrigin(from, to);
    return bracketedNewton<LeastRatio>(this, 0, from, to);
  }

  #offer(x: number): void {
    const ratio = this.#curve!.at(x) / x;
    if (!(ratio < this.#least - EQUAL * Math.abs(this.#least))) return;
    this.#best = x;
    this.#least = ratio;
  }

  /** Sign of the slope of the ratio at x: x·f′(x) − f(x). */
  at(x: number): number {
    return x * this.#curve!.slope(x) - this.#curve!.at(x);
  }

  /** Its derivative: x·f″(x). */
  slope(x: number): number {
    return x * this.#curve!.curvature(x);
  }
}
