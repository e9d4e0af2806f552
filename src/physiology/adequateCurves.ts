import { InputError } from '../base/inputError.ts';
import { type CurveReport, compareCurves, MODELS } from './curves/index.ts';
import type { ErrorModel } from './errorModel.ts';
import { noiseOf } from './readingDraws.ts';
import type { CurveId, Readings } from './stepTest.ts';

/** A curve whose residuals are less likely than this by the readings' own errors is wrong (our rule). */
export const ADEQUATE = 0.05;

/** Every curve that smooths, fitted to the readings and judged by their own errors. */
function smoothingCurves(readings: Readings, error: ErrorModel): CurveReport[] {
  const models = (Object.keys(MODELS) as CurveId[]).filter((model) => model !== 'raw');
  const sigma = readings.y.map((_, i) => noiseOf(readings, i, error));
  return compareCurves(readings, { models, sigma });
}

/** Straight lines between the readings, and every curve that the readings do not rule out. */
export function plausibleCurves(readings: Readings, error: ErrorModel): CurveId[] {
  const fitted = smoothingCurves(readings, error).filter(
    ({ status, inadequacy }) => status === 'ok' && (inadequacy?.p ?? 1) >= ADEQUATE,
  );
  return ['raw', ...fitted.map(({ model }) => model)];
}

/**
 * Of the curves that the readings' own errors allow the one that predicts left-out readings best; straight lines from
 * reading to reading smooth nothing. Where the errors allow none, the best of all.
 *
 * Throws    InputError where no curve predicts every reading from the others
 */
export function bestCurve(readings: Readings, error: ErrorModel): CurveId {
  const fitted = smoothingCurves(readings, error).filter(({ leaveOneOut }) => leaveOneOut !== null);
  // A curve through every reading leaves nothing to judge it by.
  const adequate = fitted.filter(({ inadequacy }) => inadequacy !== null && inadequacy.p >= ADEQUATE);
  const [best] = (adequate.length > 0 ? adequate : fitted).sort((a, b) => a.leaveOneOut! - b.leaveOneOut!);
  if (best) return best.model;
  throw new InputError(
    'No curve can be fitted well enough to simulate readings from: there are too few stages',
  );
}
