import type { FitStatus } from './curve.ts';
import { StraightPieces } from './straightPieces.ts';

/** Straight lines from reading to reading: no model of the curve, and the noise of two readings everywhere. */
export class RawCurve extends StraightPieces {
  readonly model = 'raw';
  readonly parameters: number;

  constructor(x: Float64Array) {
    super(x, x.length);
    this.parameters = x.length;
    this.cornerX.set(x);
  }

  fit(y: Float64Array): FitStatus {
    this.cornerY.set(y);
    this.leastRatio = NaN;
    this.status = 'ok';
    return this.status;
  }
}
