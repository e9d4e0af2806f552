import { bracketedNewton } from '../../numerics/bracketedNewton.ts';
import type { CurveId } from '../stepTest.ts';
import type { Curve, FitStatus } from './curve.ts';

/** Room for the places where a curve has a given slope: at most 2 in each interval of a spline. */
const roomFor = (points: number) => new Float64Array(2 * points + 2);

/**
 * What every smooth curve that may rise and fall reads the same way: its turning points cut the range into
 * monotone pieces, and each piece crosses a level at most once.
 */
export abstract class SmoothCurve implements Curve {
  abstract readonly model: CurveId;
  abstract readonly parameters: number;
  readonly lo: number;
  readonly hi: number;
  status: FitStatus = 'singular';
  leastRatio = NaN;
  /** Turning points of the latest fit, then hi. */
  readonly #ends: Float64Array;
  /** Values there, and at lo. */
  readonly #atEnds: Float64Array;
  #atLo = NaN;
  #pieces = 0;
  #lowest = NaN;
  readonly #tangents: Float64Array;

  constructor(x: Float64Array) {
    this.lo = x[0]!;
    this.hi = x[x.length - 1]!;
    this.#ends = roomFor(x.length);
    this.#atEnds = roomFor(x.length);
    this.#tangents = roomFor(x.length);
  }

  abstract fit(y: Float64Array): FitStatus;
  abstract at(x: number): number;
  abstract slope(x: number): number;
  abstract curvature(x: number): number;
  /** Write the intensities in [lo, hi] where the curve has this slope, ascending; return how many. */
  protected abstract placesWithSlope(slope: number, out: Float64Array): number;

  /** To be called at the end of `fit`: find the monotone pieces and the lowest point. */
  protected settle(): FitStatus {
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
    this.leastRatio = NaN;
    this.status = 'ok';
    return this.status;
  }

  lowest(): number {
    return this.#lowest;
  }

  peak(): number {
    let peak = this.#atLo;
    for (let i = 0; i < this.#pieces; i++) peak = Math.max(peak, this.#atEnds[i]!);
    return peak;
  }

  /** Where the curve takes a level between two points on either side of it, on a monotone piece. */
  protected between(level: number, left: number, right: number): number {
    return bracketedNewton(this, level, left, right);
  }

  crossing(level: number, from = this.lo): number {
    const start = Math.max(from, this.#lowest);
    for (let i = this.#pieces - 1; i >= 0; i--) {
      const right = this.#ends[i]!;
      if (right <= start) break;
      if (this.#atEnds[i]! < level) continue;
      const left = Math.max(start, i > 0 ? this.#ends[i - 1]! : this.lo);
      if (this.at(left) < level) return this.between(level, left, right);
    }
    return this.at(start) === level && start < this.hi ? start : NaN;
  }

  upwardCrossings(level: number): number {
    let count = 0;
    let left = this.lo;
    for (let i = 0; i < this.#pieces; i++) {
      const right = this.#ends[i]!;
      if (this.at(left) < level && this.at(right) >= level) count++;
      left = right;
    }
    return count;
  }

  tangentAt(slope: number, from = this.lo): number {
    const places = this.placesWithSlope(slope, this.#tangents);
    let best = NaN;
    let height = Number.POSITIVE_INFINITY;
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
  abstract writeInflections(out: Float64Array): number;

  inflections(): number[] {
    const out = new Float64Array(this.#ends.length);
    return [...out.subarray(0, this.writeInflections(out))];
  }

  /** Turning points strictly inside the range, ascending. */
  turningPoints(): number[] {
    return [...this.#ends.subarray(0, this.#pieces - 1)].filter((x) => x > this.lo && x < this.hi);
  }
}
