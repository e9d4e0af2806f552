import type { FitStatus } from './curve.ts';
import { StraightPieces } from './straightPieces.ts';

/** Straight lines from reading to reading: no model of the curve, and the noise of two readings everywhere. */
export class RawCurve extends StraightPieces {
  constructor(x: Float64Array) {
    super('raw', x.length, x, x.length);
    for (let i = 0; i < x.length; i++) this.cornerX[i] = x[i]!;
  }

  fit(y: Float64Array): FitStatus {
    for (let i = 0; i < y.length; i++) this.cornerY[i] = y[i]!;
    this.leastRatio = NaN;
    this.status = 'ok';
    return this.status;
  }
}
