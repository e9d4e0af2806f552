import type { CurveId } from '../stepTest.ts';
import { Curve, type FitStatus } from './curve.ts';

/** Stands in for a model that these intensities are too few for: always 'singular', and answers nothing. */
export class UnfittableCurve extends Curve {
  constructor(model: CurveId, parameters: number, x: Float64Array) {
    super(model, parameters, x.length > 0 ? x[0]! : NaN, x.length > 0 ? x[x.length - 1]! : NaN);
  }

  fit(_y: Float64Array): FitStatus {
    return 'singular';
  }
  at(_x: number): number {
    return NaN;
  }
  slope(_x: number): number {
    return NaN;
  }
  curvature(_x: number): number {
    return NaN;
  }
  protected lastRise(_level: number, _from: number): number {
    return NaN;
  }
  upwardCrossings(_level: number): i32 {
    return 0;
  }
  protected lowestTouch(_slope: number, _from: number): number {
    return NaN;
  }
  lowest(): number {
    return NaN;
  }
  peak(): number {
    return NaN;
  }
}
