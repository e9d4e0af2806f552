import type { Curve } from '../../curves/curve.ts';
import { LogLogFit } from '../../curves/logLog.ts';
import type { SegmentedCurve } from '../../curves/segmentedCurve.ts';
import { type Answer, give, refuse } from '../answer.ts';
import { Estimator, FIXED_SLOPE, LOG_LOG, SECOND_DERIVATIVE, TURN_POINT } from './estimator.ts';

/** A bend of the line of three segments. */
export class TurnPoint extends Estimator {
  /** @param index 1 or 2 */
  constructor(index: number) {
    super(TURN_POINT, index, 0);
  }

  find(_y: Float64Array, curve: Curve | null, answer: Answer): void {
    // The curve of these methods cannot be replaced, so it always is the three-segment line.
    const line = curve as SegmentedCurve;
    const corner = this.first as i32;
    give(answer, line.cornerX[corner]!, line.cornerY[corner]!);
  }
}

/** The bend between two straight lines of log lactate against log intensity. */
export class LogLogBend extends Estimator {
  readonly #fit: LogLogFit;

  constructor(x: Float64Array, count: Float64Array) {
    super(LOG_LOG, 0, 0);
    this.#fit = new LogLogFit(x, count);
  }

  find(y: Float64Array, _curve: Curve | null, answer: Answer): void {
    const fit = this.#fit;
    const status = fit.fit(y);
    if (status === 'ok') give(answer, fit.intensity, fit.lactate);
    else refuse(answer, status === 'singular' ? 'E_SINGULAR' : 'E_NOT_CONVEX');
  }
}

/** A bend below this share of the readings' size, over the whole range, is rounding: nothing bends there. */
const LEAST_BEND: number = 1e-9;

/** The bend of a curve that rises by the greatest reading within the range of intensity. */
function scaleOf(y: Float64Array, width: number): number {
  let greatest: number = 0;
  for (let i = 0; i < y.length; i++) greatest = Math.max(greatest, y[i]!);
  return greatest / (width * width);
}

/** The stage at which a curve bends most. */
export class SecondDerivative extends Estimator {
  readonly #x: Float64Array;

  constructor(x: Float64Array) {
    super(SECOND_DERIVATIVE, 0, 0);
    this.#x = x;
  }

  find(y: Float64Array, curve: Curve | null, answer: Answer): void {
    const x = this.#x;
    let most = LEAST_BEND * scaleOf(y, curve!.hi - curve!.lo);
    let best = -1;
    for (let i = 1; i < x.length - 1; i++) {
      const bend = curve!.curvature(x[i]!);
      if (bend > most) {
        most = bend;
        best = i;
      }
    }
    if (best < 0) refuse(answer, 'E_NOT_CONVEX');
    else if (best === x.length - 2) refuse(answer, 'E_EDGE');
    else give(answer, x[best]!, curve!.at(x[best]!));
  }
}

/** Where a curve is as steep as a given line. */
export class FixedSlope extends Estimator {
  constructor(slope: number) {
    super(FIXED_SLOPE, slope, 0);
  }

  find(_y: Float64Array, curve: Curve | null, answer: Answer): void {
    const slope = this.first;
    const x = curve!.tangentAt(slope, curve!.lo);
    if (!Number.isNaN(x)) give(answer, x, curve!.at(x));
    // The slope never rises through this one: it stays below it, or above it, or only falls through it.
    else if (curve!.slope(curve!.lo) <= slope) refuse(answer, 'E_NOT_REACHED');
    else refuse(answer, curve!.slope(curve!.hi) > slope ? 'E_ALREADY_ABOVE' : 'E_NOT_CONVEX');
  }
}
