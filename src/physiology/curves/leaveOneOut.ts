import type { CurveId, Readings } from '../stepTest.ts';
import { leveragesOf } from './linearCurves.ts';
import { type FittedCurve, prepareCurve } from './models.ts';

/**
 * Root mean square error of predicting each reading from the others, mmol/L.
 *
 * Model     linear smoothers by e/(1 − leverage) with their smoothing held, other curves by refitting
 * Missing   the first and last readings are not scored: predicting them is extrapolation (our rule); null when a
 *           reading cannot be predicted (too few points left, or the refit fails)
 * Source    the leverage form after Allen 1974, Technometrics 16:125–127 (from memory)
 */
export function leaveOneOutError(
  curve: FittedCurve,
  readings: Pick<Readings, 'x' | 'y' | 'count'>,
): number | null {
  const leverages = leveragesOf(curve, curve.x);
  let sum = 0;
  const inner = readings.x.length - 2;
  for (let i = 1; i <= inner; i++) {
    const error = leverages
      ? curve.residuals[i]! / (1 - leverages[i]!)
      : readings.y[i]! - predictWithout(i, curve.model, readings);
    sum += error * error;
  }
  // A leverage of 1 within rounding: the curve goes through that reading whatever it is.
  const saturated = leverages?.some((h) => h > 1 - 1e-9) ?? false;
  return inner > 0 && !saturated && Number.isFinite(sum) ? Math.sqrt(sum / inner) : null;
}

function predictWithout(i: number, model: CurveId, readings: Pick<Readings, 'x' | 'y' | 'count'>): number {
  const others = (_: number, k: number) => k !== i;
  const curve = prepareCurve(model, readings.x.filter(others), readings.count.filter(others));
  return curve.fit(readings.y.filter(others)) === 'ok' ? curve.at(readings.x[i]!) : NaN;
}
