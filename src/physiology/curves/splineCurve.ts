import { realRoots } from '../../numerics/realRoots.ts';
import { SmoothingSpline } from '../../numerics/smoothingSpline.ts';
import type { FitStatus } from './curve.ts';
import { SmoothCurve } from './smoothCurve.ts';

/** Effective degrees of freedom: fixed, so that the same test always gives the same curve (our rule). */
const effectiveDf = (points: number) => Math.min(4.5, points - 1.5);

/**
 * Natural cubic smoothing spline with a fixed number of effective degrees of freedom.
 *
 * Model     see src/numerics/smoothingSpline.ts; knots at the stages
 * Shape     x ascending, n >= 4; weights one per point, if any
 * Assumes   nothing about convexity. The second derivative is straight between stages and 0 at both ends, so
 *           its maximum is always at a stage
 */
export class SplineCurve extends SmoothCurve {
  readonly model = 'spline';
  readonly parameters: number;
  readonly leverages: Float64Array;
  readonly #x: Float64Array;
  readonly #spline: SmoothingSpline;
  readonly #width: number;
  /** Fitted values, and second derivatives per range squared, at the stages. */
  readonly #values: Float64Array;
  readonly #bends: Float64Array;
  readonly #slopeRow = new Float64Array(3);
  readonly #roots = new Float64Array(6);

  constructor(x: Float64Array, weights?: ArrayLike<number>) {
    super(x);
    this.#x = x;
    this.#width = this.hi - this.lo;
    this.parameters = effectiveDf(x.length);
    const z = x.map((value) => (value - this.lo) / this.#width);
    this.#spline = new SmoothingSpline(z, this.parameters, weights);
    this.leverages = x.map((_, i) => this.#spline.hat[i]![i]!);
    this.#values = new Float64Array(x.length);
    this.#bends = new Float64Array(x.length);
  }

  fit(y: Float64Array): FitStatus {
    for (let i = 0; i < y.length; i++) {
      const hat = this.#spline.hat[i]!;
      const bending = this.#spline.bending[i]!;
      let value = 0;
      let bend = 0;
      for (let k = 0; k < y.length; k++) {
        value += hat[k]! * y[k]!;
        bend += bending[k]! * y[k]!;
      }
      this.#values[i] = value;
      this.#bends[i] = bend;
    }
    return this.settle();
  }

  #interval(x: number): number {
    let i = 0;
    while (i < this.#x.length - 2 && x >= this.#x[i + 1]!) i++;
    return i;
  }

  at(x: number): number {
    const i = this.#interval(x);
    const h = (this.#x[i + 1]! - this.#x[i]!) / this.#width;
    const right = (x - this.#x[i]!) / (this.#x[i + 1]! - this.#x[i]!);
    const left = 1 - right;
    const sag = left * right * ((1 + right) * this.#bends[i + 1]! + (1 + left) * this.#bends[i]!);
    return left * this.#values[i]! + right * this.#values[i + 1]! - (h * h * sag) / 6;
  }

  /** Slope per whole range at the left end of an interval. */
  #slopeAtLeft(i: number): number {
    const h = (this.#x[i + 1]! - this.#x[i]!) / this.#width;
    return (
      (this.#values[i + 1]! - this.#values[i]!) / h - (h * (this.#bends[i + 1]! + 2 * this.#bends[i]!)) / 6
    );
  }

  slope(x: number): number {
    const i = this.#interval(x);
    const along = (x - this.#x[i]!) / this.#width;
    const bend = this.#bends[i]!;
    const change = ((this.#bends[i + 1]! - bend) * this.#width) / (this.#x[i + 1]! - this.#x[i]!);
    return (this.#slopeAtLeft(i) + along * (bend + (along * change) / 2)) / this.#width;
  }

  curvature(x: number): number {
    const i = this.#interval(x);
    const right = (x - this.#x[i]!) / (this.#x[i + 1]! - this.#x[i]!);
    return ((1 - right) * this.#bends[i]! + right * this.#bends[i + 1]!) / (this.#width * this.#width);
  }

  protected placesWithSlope(slope: number, out: Float64Array): number {
    let found = 0;
    for (let i = 0; i < this.#x.length - 1; i++) {
      const h = (this.#x[i + 1]! - this.#x[i]!) / this.#width;
      this.#slopeRow[0] = this.#slopeAtLeft(i) - slope * this.#width;
      this.#slopeRow[1] = this.#bends[i]!;
      this.#slopeRow[2] = (this.#bends[i + 1]! - this.#bends[i]!) / (2 * h);
      const roots = realRoots(this.#slopeRow, 0, h, this.#roots);
      for (let k = 0; k < roots; k++) {
        const x = this.#x[i]! + this.#width * this.#roots[k]!;
        if (found === 0 || x > out[found - 1]!) out[found++] = x;
      }
    }
    return found;
  }

  writeInflections(out: Float64Array): number {
    let found = 0;
    for (let i = 0; i < this.#x.length - 1; i++) {
      const from = this.#bends[i]!;
      const to = this.#bends[i + 1]!;
      if (from < 0 !== to < 0 && from !== 0 && to !== 0) {
        out[found++] = this.#x[i]! + ((this.#x[i + 1]! - this.#x[i]!) * from) / (from - to);
      }
    }
    return found;
  }
}
