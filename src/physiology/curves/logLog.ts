import { BrokenLine } from '../../numerics/brokenLine.ts';
import type { FitStatus } from './curve.ts';

/**
 * Two straight segments of ln lactate on ln intensity, continuous, the second steeper, by exact least squares.
 *
 * Model     ln y = β0 + β1·ln x + γ·max(0, ln x − k); the bend is at e^k
 * Shape     x ascending and above 0, n >= 5; 'singular' when a reading or an intensity is not above 0
 * Units     intensity of the bend in the unit of x, its lactate in mmol/L
 * Source    Beaver, Wasserman & Whipp 1985, J Appl Physiol 59:1936–1940 (from memory)
 * Departs   the paper fits two lines and takes their intersection; here the lines must meet at the bend
 */
export class LogLogFit {
  readonly lo: number;
  readonly hi: number;
  status: FitStatus = 'singular';
  /** The bend: intensity and lactate on the lines; NaN unless the status is 'ok'. */
  intensity: number = NaN;
  lactate: number = NaN;
  readonly #line: BrokenLine | null;
  readonly #logY: Float64Array;

  constructor(x: Float64Array, weights: Float64Array) {
    const n = x.length;
    this.lo = n > 0 ? x[0]! : NaN;
    this.hi = n > 0 ? x[n - 1]! : NaN;
    this.#logY = new Float64Array(n);
    const logX = new Float64Array(n);
    for (let i = 0; i < n; i++) logX[i] = Math.log(x[i]!);
    this.#line = n >= 5 && this.lo > 0 ? new BrokenLine(logX, 1, weights) : null;
  }

  fit(y: Float64Array): FitStatus {
    this.status = this.#attempt(y);
    const bent = this.status === 'ok';
    this.intensity = bent ? Math.exp(this.#line!.breakpoints[0]!) : NaN;
    this.lactate = bent ? Math.exp(this.#line!.corners[1]!) : NaN;
    return this.status;
  }

  #attempt(y: Float64Array): FitStatus {
    const line = this.#line;
    if (line === null) return 'singular';
    for (let i = 0; i < y.length; i++) {
      if (!(y[i]! > 0)) return 'singular';
      this.#logY[i] = Math.log(y[i]!);
    }
    return line.fit(this.#logY) ? 'ok' : 'not-convex';
  }

  /** mmol/L at intensity x on the two segments. */
  at(x: number): number {
    const line = this.#line;
    if (line === null || this.status !== 'ok') return NaN;
    const piece = x <= this.intensity ? 0 : 1;
    const from = piece === 0 ? this.lo : this.intensity;
    const to = piece === 0 ? this.intensity : this.hi;
    const share = Math.log(x / from) / Math.log(to / from);
    return Math.exp((1 - share) * line.corners[piece]! + share * line.corners[piece + 1]!);
  }
}
