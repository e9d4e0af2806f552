import type { CurveId } from '../stepTest.ts';

/** Why a fit or a reading from it is not available; the sentences are in `refusal.ts`. */
export type FitStatus = 'ok' | 'singular' | 'not-convex';

/**
 * A lactate curve over fixed intensities, refitted in place. One class serves the headline fit and, compiled, every
 * Monte Carlo draw: whatever depends only on the intensities is prepared once, `fit` allocates nothing, and the
 * readers below answer for the latest `fit`. Intensities outside [lo, hi] are never answered.
 */
export abstract class Curve {
  readonly model: CurveId;
  /** Free mean parameters (breakpoints count). */
  readonly parameters: number;
  readonly lo: number;
  readonly hi: number;
  /** Status of the latest fit. */
  status: FitStatus = 'singular';
  /** Room for where `LeastRatio` finds its low point on the latest fit, which several methods ask for; NaN after `fit`. */
  leastRatio: number = NaN;

  constructor(model: CurveId, parameters: number, lo: number, hi: number) {
    this.model = model;
    this.parameters = parameters;
    this.lo = lo;
    this.hi = hi;
  }

  /** Fit to lactates y (one per intensity the curve was prepared for). */
  abstract fit(y: Float64Array): FitStatus;
  /** Forget where earlier fits ended: the next one hangs on its lactates alone, to the last digit. */
  forget(): void {}
  /** mmol/L at intensity x in [lo, hi]. */
  abstract at(x: number): number;
  /** mmol/L per unit of intensity at x. */
  abstract slope(x: number): number;
  /** Second derivative at x; NaN on curves made of straight pieces. */
  abstract curvature(x: number): number;
  /**
   * Intensity of the last upward crossing of `level` at or right of both `from` and the curve's lowest point; NaN when
   * there is none in the tested range. `from` is where a minimum was found, for methods that count from it.
   */
  crossing(level: number, from: number = this.lo): number {
    return this.lastRise(level, from);
  }

  protected abstract lastRise(level: number, from: number): number;

  /** How many times the curve crosses `level` upward in the tested range; above 1 the curve wiggles. */
  abstract upwardCrossings(level: number): i32;
  /**
   * Intensity strictly between `from` and hi where the curve, bending upward, has the given slope:
   * where a line of that slope touches it from below, the lowest such line if there are several. On straight
   * pieces that is the corner where the slope passes the given one. NaN when there is none.
   */
  tangentAt(slope: number, from: number = this.lo): number {
    return this.lowestTouch(slope, from);
  }

  protected abstract lowestTouch(slope: number, from: number): number;

  /** Intensity of the lowest value on [lo, hi]. */
  abstract lowest(): number;
  /** Greatest value on [lo, hi], mmol/L. */
  abstract peak(): number;
}
