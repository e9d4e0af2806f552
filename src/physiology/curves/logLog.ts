import { BrokenLine } from '../../numerics/brokenLine.ts';
import type { FitStatus } from './curve.ts';

/**
 * Two straight segments of ln lactate on ln intensity, continuous, the second steeper, by exact least squares.
 *
 * Model     ln y = β0 + β1·ln x + γ·max(0, ln x − k); the breakpoint is e^k
 * Shape     x ascending and above 0, n >= 5; 'singular' when a reading or an intensity is not above 0
 * Units     breakpoint in the unit of x
 * Source    Beaver, Wasserman & Whipp 1985, J Appl Physiol 59:1936–1940 (from memory)
 * Departs   the paper fits two lines and takes their intersection; here the lines must meet at the breakpoint
 */
export class LogLog {
  readonly lo: number;
  readonly hi: number;
  readonly parameters = 4;
  status: FitStatus = 'singular';
  /** Intensity at the bend; NaN unless the status is 'ok'. */
  breakpoint = NaN;
  readonly #line: BrokenLine | null;
  readonly #logY: Float64Array;

  constructor(x: Float64Array, weights?: ArrayLike<number>) {
    this.lo = x[0] ?? NaN;
    this.hi = x[x.length - 1] ?? NaN;
    this.#logY = new Float64Array(x.length);
    this.#line = x.length >= 5 && this.lo > 0 ? new BrokenLine(x.map(Math.log), 1, weights) : null;
  }

  fit(y: Float64Array): FitStatus {
    this.status = this.#attempt(y);
    this.breakpoint = this.status === 'ok' ? Math.exp(this.#line!.breakpoints[0]!) : NaN;
    return this.status;
  }

  #attempt(y: Float64Array): FitStatus {
    if (this.#line === null) return 'singular';
    for (let i = 0; i < y.length; i++) {
      if (!(y[i]! > 0)) return 'singular';
      this.#logY[i] = Math.log(y[i]!);
    }
    return this.#line.fit(this.#logY) ? 'ok' : 'not-convex';
  }

  /** mmol/L at intensity x on the two segments. */
  at(x: number): number {
    if (this.#line === null || this.status !== 'ok') return NaN;
    const [atLo, atBreak, atHi] = this.#line.corners;
    const left = x <= this.breakpoint;
    const [from, to] = left ? [this.lo, this.breakpoint] : [this.breakpoint, this.hi];
    const share = Math.log(x / from) / Math.log(to / from);
    return Math.exp((1 - share) * (left ? atLo! : atBreak!) + share * (left ? atBreak! : atHi!));
  }
}
