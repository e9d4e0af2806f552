import { BrokenLine } from '../../numerics/brokenLine.ts';
import type { FitStatus } from './curve.ts';
import { StraightPieces } from './straightPieces.ts';

const BREAKS = { 'two-segment': 1, 'three-segment': 2 } as const;

/**
 * Continuous line of two or three straight segments, each steeper than the one before, by exact least squares.
 *
 * Model     see src/numerics/brokenLine.ts, which also states how ties are broken
 * Shape     x ascending; n >= 5 for two segments, 7 for three; weights one per point, if any
 * Source    Hudson 1966, J Am Stat Assoc 61:1097–1129 (from memory)
 */
export class SegmentedCurve extends StraightPieces {
  readonly model: keyof typeof BREAKS;
  readonly parameters: number;
  readonly #line: BrokenLine;

  constructor(model: keyof typeof BREAKS, x: Float64Array, weights?: ArrayLike<number>) {
    const breaks = BREAKS[model];
    super(x, breaks + 2);
    this.model = model;
    this.parameters = 2 * (breaks + 1);
    this.#line = new BrokenLine(x, breaks, weights);
    this.cornerX[0] = this.lo;
    this.cornerX[breaks + 1] = this.hi;
  }

  fit(y: Float64Array): FitStatus {
    const convex = this.#line.fit(y);
    this.status = convex ? 'ok' : 'not-convex';
    this.leastRatio = NaN;
    for (let j = 0; j < this.breakpoints.length; j++) {
      this.cornerX[j + 1] = convex ? this.breakpoints[j]! : NaN;
    }
    for (let j = 0; j < this.cornerY.length; j++) this.cornerY[j] = convex ? this.#line.corners[j]! : NaN;
    return this.status;
  }

  /** Intensities where the slope changes, ascending; of the latest fit whose status was 'ok'. */
  get breakpoints(): Float64Array {
    return this.#line.breakpoints;
  }
}
