import { RealRoots } from '../../numerics/realRoots.ts';
import type { FitStatus } from './curve.ts';
import { SmoothCurve } from './smoothCurve.ts';

/**
 * Natural cubic smoothing spline with a fixed number of effective degrees of freedom; `splineCurve` makes one.
 *
 * Model     see src/numerics/smoothingSpline.ts; knots at the stages
 * Shape     x ascending, n >= 4; `hat` and `bending` n rows of n numbers: the weights of the readings in the fitted
 *           value, and in the second derivative per range squared, at each stage
 * Assumes   nothing about convexity. The second derivative is straight between stages and 0 at both ends, so
 *           its maximum is always at a stage
 */
export class SplineCurve extends SmoothCurve {
  readonly hat: Float64Array;
  readonly bending: Float64Array;
  readonly #x: Float64Array;
  readonly #width: number;
  /** Fitted values, and second derivatives per range squared, at the stages. */
  readonly #values: Float64Array;
  readonly #bends: Float64Array;
  readonly #slopeRow: Float64Array = new Float64Array(3);
  readonly #finder: RealRoots = new RealRoots();
  readonly #roots: Float64Array = new Float64Array(6);

  constructor(x: Float64Array, freedom: number, hat: Float64Array, bending: Float64Array) {
    super('spline', freedom, x);
    this.#x = x;
    this.hat = hat;
    this.bending = bending;
    this.#values = new Float64Array(x.length);
    this.#bends = new Float64Array(x.length);
    this.#width = this.hi - this.lo;
  }

  fit(y: Float64Array): FitStatus {
    const n = y.length;
    for (let i = 0, at = 0; i < n; i++) {
      let value: number = 0;
      let bend: number = 0;
      for (let k = 0; k < n; k++, at++) {
        value += this.hat[at]! * y[k]!;
        bend += this.bending[at]! * y[k]!;
      }
      this.#values[i] = value;
      this.#bends[i] = bend;
    }
    return this.settle();
  }

  #interval(x: number): i32 {
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
  #slopeAtLeft(i: i32): number {
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

  protected placesWithSlope(slope: number, out: Float64Array): i32 {
    let found = 0;
    for (let i = 0; i < this.#x.length - 1; i++) {
      const h = (this.#x[i + 1]! - this.#x[i]!) / this.#width;
      this.#slopeRow[0] = this.#slopeAtLeft(i) - slope * this.#width;
      this.#slopeRow[1] = this.#bends[i]!;
      this.#slopeRow[2] = (this.#bends[i + 1]! - this.#bends[i]!) / (2 * h);
      const roots = this.#finder.find(this.#slopeRow, 2, 0, h, this.#roots);
      for (let k = 0; k < roots; k++) {
        const x = this.#x[i]! + this.#width * this.#roots[k]!;
        if (found === 0 || x > out[found - 1]!) out[found++] = x;
      }
    }
    return found;
  }

  writeInflections(out: Float64Array): i32 {
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
