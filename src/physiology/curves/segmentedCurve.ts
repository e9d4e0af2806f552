import { BrokenLine } from '../../numerics/brokenLine.ts';
import type { FitStatus } from './curve.ts';
import { StraightPieces } from './straightPieces.ts';

type SegmentedId = 'two-segment' | 'three-segment';

function breaksOf(model: SegmentedId): i32 {
  return model === 'two-segment' ? 1 : 2;
}

/**
 * Continuous line of two or three straight segments, each steeper than the one before, by exact least squares.
 *
 * Model     see src/numerics/brokenLine.ts, which also states how ties are broken
 * Shape     x ascending; n >= 5 for two segments, 7 for three; weights one per point
 * Source    Hudson 1966, J Am Stat Assoc 61:1097–1129 (from memory)
 */
export class SegmentedCurve extends StraightPieces {
  readonly #line: BrokenLine;

  constructor(model: SegmentedId, x: Float64Array, weights: Float64Array) {
    const breaks = breaksOf(model);
    super(model, 2 * (breaks + 1), x, breaks + 2);
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
