import { bracketedNewton, type Differentiable } from '../../numerics/bracketedNewton.ts';
import type { CurveId } from '../stepTest.ts';
import { Curve, type FitStatus } from './curve.ts';

/**
 * What every smooth curve that may rise and fall reads the same way: its turning points cut the range into
 * monotone pieces, and each piece crosses a level at most once.
 */
export abstract class SmoothCurve extends Curve implements Differentiable {
  /** Turning points of the latest fit, then hi. */
  readonly #ends: Float64Array;
  /** Values there, and at lo. */
  readonly #atEnds: Float64Array;
  #atLo: number = NaN;
  /** How many there are; 0 while nobody asked since the latest fit. */
  #pieces: i32 = 0;
  #lowest: number = NaN;
  readonly #tangents: Float64Array;

  constructor(model: CurveId, parameters: number, x: Float64Array) {
    super(model, parameters, x[0]!, x[x.length - 1]!);
    // A slope is taken at most twice in each interval of a spline.
    const most = 2 * x.length + 2;
    this.#ends = new Float64Array(most);
    this.#atEnds = new Float64Array(most);
    this.#tangents = new Float64Array(most);
  }

  /** Write the intensities in [lo, hi] where the curve has this slope, ascending; return how many. */
  protected abstract placesWithSlope(slope: number, out: Float64Array): i32;

  /** To be called at the end of `fit`: what was found of the curve before holds no longer. */
  protected settle(): FitStatus {
    this.#pieces = 0;
    this.leastRatio = NaN;
    this.status = 'ok';
    return this.status;
  }

  /** Find the monotone pieces and the lowest point, unless that was done: some methods ask for neither. */
  #cut(): void {
    if (this.#pieces > 0) return;
    const turns = this.placesWithSlope(0, this.#ends);
    this.#ends[turns] = this.hi;
    this.#pieces = turns + 1;
    this.#lowest = this.lo;
    this.#atLo = this.at(this.lo);
    let least = this.#atLo;
    for (let i = 0; i < this.#pieces; i++) {
      const value = this.at(this.#ends[i]!);
      this.#atEnds[i] = value;
      if (value >= least) continue;
      least = value;
      this.#lowest = this.#ends[i]!;
    }
  }

  lowest(): number {
    this.#cut();
    return this.#lowest;
  }

  peak(): number {
    this.#cut();
    let peak = this.#atLo;
    for (let i = 0; i < this.#pieces; i++) peak = Math.max(peak, this.#atEnds[i]!);
    return peak;
  }

  /** Where the curve takes a level between two points on either side of it, on a monotone piece; with its values there. */
  protected between(level: number, left: number, _atLeft: number, right: number, _atRight: number): number {
    return bracketedNewton<SmoothCurve>(this, level, left, right);
  }

  protected lastRise(level: number, from: number): number {
    this.#cut();
    const start = Math.max(from, this.#lowest);
    for (let i = this.#pieces - 1; i >= 0; i--) {
      const right = this.#ends[i]!;
      if (right <= start) break;
      if (this.#atEnds[i]! < level) continue;
      const left = Math.max(start, i > 0 ? this.#ends[i - 1]! : this.lo);
      const atLeft = this.at(left);
      if (atLeft < level) return this.between(level, left, atLeft, right, this.#atEnds[i]!);
    }
    return this.at(start) === level && start < this.hi ? start : NaN;
  }

  upwardCrossings(level: number): i32 {
    this.#cut();
    let count = 0;
    let left = this.lo;
    for (let i = 0; i < this.#pieces; i++) {
      const right = this.#ends[i]!;
      if (this.at(left) < level && this.at(right) >= level) count++;
      left = right;
    }
    return count;
  }

  protected lowestTouch(slope: number, from: number): number {
    const places = this.placesWithSlope(slope, this.#tangents);
    let best = NaN;
    let height: number = Infinity;
    for (let i = 0; i < places; i++) {
      const x = this.#tangents[i]!;
      if (!(x > from && x < this.hi && this.curvature(x) > 0)) continue;
      if (this.at(x) - slope * x < height) {
        height = this.at(x) - slope * x;
        best = x;
      }
    }
    return best;
  }

  /** Write the intensities inside the range where the curvature changes sign, ascending; return how many. */
  abstract writeInflections(out: Float64Array): i32;

  inflections(): number[] {
    const out = new Float64Array(this.#ends.length);
    const count = this.writeInflections(out);
    const found: number[] = [];
    for (let i = 0; i < count; i++) found.push(out[i]!);
    return found;
  }

  /** Turning points strictly inside the range, ascending. */
  turningPoints(): number[] {
    this.#cut();
    const found: number[] = [];
    for (let i = 0; i < this.#pieces - 1; i++) {
      const x = this.#ends[i]!;
      if (x > this.lo && x < this.hi) found.push(x);
    }
    return found;
  }
}
