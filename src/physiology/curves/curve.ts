import type { CurveId } from '../stepTest.ts';

/** Why a fit or a reading from it is not available; the sentences are in `refusal.ts`. */
export type FitStatus = 'ok' | 'singular' | 'not-convex';

/**
 * A lactate curve over fixed intensities, refitted in place. One object serves the headline fit and every Monte
 * Carlo draw: whatever depends only on the intensities is prepared once, `fit` allocates nothing, and the
 * readers below answer for the latest `fit`. Intensities outside [lo, hi] are never answered.
 */
export interface Curve {
  readonly model: CurveId;
  readonly lo: number;
  readonly hi: number;
  /** Free mean parameters (breakpoints count). */
  readonly parameters: number;
  /** Fit to lactates y (one per intensity the curve was prepared for). */
  fit(y: Float64Array): FitStatus;
  /** Status of the latest fit. */
  readonly status: FitStatus;
  /** mmol/L at intensity x in [lo, hi]. */
  at(x: number): number;
  /** mmol/L per unit of intensity at x. */
  slope(x: number): number;
  /**
   * Intensity of the last upward crossing of `level` at or right of both `from` (default lo) and the curve's
   * lowest point; NaN when there is none in the tested range. `from` is where a minimum was found, for methods
   * that count from it.
   */
  crossing(level: number, from?: number): number;
  /** How many times the curve crosses `level` upward in the tested range; above 1 the curve wiggles. */
  upwardCrossings(level: number): number;
  /**
   * Intensity strictly between `from` (default lo) and hi where the curve, bending upward, has the given slope:
   * where a line of that slope touches it from below, the lowest such line if there are several. On straight
   * pieces that is the corner where the slope passes the given one. NaN when there is none.
   */
  tangentAt(slope: number, from?: number): number;
  /** Second derivative at x; absent on curves made of straight pieces. */
  curvature?(x: number): number;
  /** Intensity of the lowest value on [lo, hi]. */
  lowest(): number;
  /** Room for where `LeastRatio` finds its low point on the latest fit, which several methods ask for; NaN after `fit`. */
  leastRatio: number;
  /** Greatest value on [lo, hi], mmol/L. */
  peak(): number;
}
