import { modelsChart } from '../charts/modelsChart.ts';
import { ADEQUATE } from '../physiology/adequateCurves.ts';
import { type CurveReport, compareCurves, fitCurve, MODELS } from '../physiology/curves/index.ts';
import type { ErrorModel } from '../physiology/errorModel.ts';
import type { CurveId, Readings } from '../physiology/stepTest.ts';
import { type ChartView, table } from '../view/view.ts';
import { type Display, lactateWords } from './display.ts';
import { curvePoints, readingSd } from './showCurve.ts';

/** Above it, with this many degrees of freedom or more, the meter is better than was claimed. */
const TOO_GOOD = 0.99;
const FREEDOM = 3;

/**
 * Curve models side by side: each with what it leaves over, how well it predicts a reading it has not seen, and
 * whether it misses by more than the meter's own errors.
 */
export function showModels(
  readings: Readings,
  { display, error, models }: { display: Display; error: ErrorModel; models?: readonly CurveId[] },
): ChartView {
  const sd = readingSd(readings, error);
  const reports = compareCurves(readings, { sigma: sd, ...(models ? { models } : {}) });
  const fitted = reports.filter((report) => report.status === 'ok');
  return modelsChart({
    axis: display.axis,
    x: readings.x,
    y: readings.y,
    readingSd: sd,
    panels: fitted.map((report) => ({
      ...curvePoints(fitCurve(readings, { model: report.model })),
      name: MODELS[report.model].short,
      residuals: report.residuals,
      remark: report.leaveOneOut === null ? 'no prediction' : `predicts to ${report.leaveOneOut.toFixed(2)}`,
    })),
    title: 'Curve models side by side',
    summary: summaryOf(fitted),
    data: modelTable(reports),
  });
}

const isInadequate = ({ inadequacy }: CurveReport) => inadequacy !== null && inadequacy.p < ADEQUATE;

function summaryOf(fitted: readonly CurveReport[]): string {
  const ranked = fitted
    .filter((report) => report.leaveOneOut !== null)
    .toSorted((a, b) => a.leaveOneOut! - b.leaveOneOut!);
  const [best] = ranked;
  const predicts = best
    ? `A reading left out is predicted best by the ${best.name}, to ${lactateWords(best.leaveOneOut!)}. `
    : '';
  const wrong = fitted.filter(isInadequate).map((report) => report.name);
  const misses =
    wrong.length === 0
      ? 'No curve misses the readings by more than the meter explains.'
      : `More than the meter explains is missed by: ${wrong.join(', ')}.`;
  return `${predicts}${misses} Below each curve: reading less curve, in mmol/L, on a band of two standard deviations.`;
}

function verdict(report: CurveReport): string {
  if (report.status !== 'ok') return 'cannot be fitted to these readings';
  if (isInadequate(report)) return 'does not describe these readings';
  const { inadequacy, shape } = report;
  if (inadequacy && inadequacy.p > TOO_GOOD && inadequacy.degreesOfFreedom >= FREEDOM) {
    return 'fits better than the meter should allow';
  }
  if (shape.minima.length > 1) return 'dips more than once';
  return inadequacy === null ? 'too few readings to tell' : 'describes these readings';
}

const modelTable = (reports: readonly CurveReport[]) =>
  table({
    caption: 'Curve models',
    columns: [
      { key: 'name', heading: 'Curve' },
      { key: 'sd', heading: 'Residual SD', unit: 'mmol/L', align: 'right' },
      { key: 'left', heading: 'Predicts a reading left out to', unit: 'mmol/L', align: 'right' },
      { key: 'p', heading: 'Chance of so large a misfit', align: 'right' },
      { key: 'signs', heading: 'Readings above (+) and below (−)' },
      { key: 'verdict', heading: 'Verdict' },
    ],
    rows: reports.map((report) => ({
      name: report.name,
      sd: report.residualSd?.toFixed(2) ?? '–',
      left: report.leaveOneOut?.toFixed(2) ?? '–',
      p: report.inadequacy === null ? '–' : chanceWords(report.inadequacy.p),
      signs: report.signs,
      verdict: verdict(report),
      tone: report.status === 'ok' && !isInadequate(report) ? null : ('muted' as const),
    })),
    note:
      'The chance is that of the chi-square test with the meter set above. The first and last readings are not ' +
      'predicted, for that would be extrapolation. A good fit is no licence to choose the curve by its threshold.',
  });

const chanceWords = (p: number) => (p < 0.001 ? '< 0.001' : p.toFixed(3));
