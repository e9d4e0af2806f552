import type { CurveId } from '../stepTest.ts';
import type { Curve, FitStatus } from './curve.ts';

/** Stands in for a model that these intensities are too few for: always 'singular', and answers nothing. */
export class UnfittableCurve implements Curve {
  readonly model: CurveId;
  readonly parameters: number;
  readonly lo: number;
  readonly hi: number;
  readonly status = 'singular';
  leastRatio = NaN;

  constructor(model: CurveId, parameters: number, x: Float64Array) {
    this.model = model;
    this.parameters = parameters;
    this.lo = x[0] ?? NaN;
    this.hi = x[x.length - 1] ?? NaN;
  }

  fit(): FitStatus {
    return 'singular';
  }
  at(): number {
    return NaN;
  }
  slope(): number {
    return NaN;
  }
  crossing(): number {
    return NaN;
  }
  upwardCrossings(): number {
    return 0;
  }
  tangentAt(): number {
    return NaN;
  }
  lowest(): number {
    return NaN;
  }
  peak(): number {
    return NaN;
  }
}
