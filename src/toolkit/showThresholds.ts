import { thresholdsChart } from '../charts/thresholdsChart.ts';
import { type FittedCurve, fitCurve, MODELS } from '../physiology/curves/index.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type ChartView, type TableRow, type TableView, table } from '../view/view.ts';
import { bareIntensity, bareRange, type Display } from './display.ts';
import { answered, chartRows, spanWords, unanswered } from './methodRows.ts';
import { curvePoints } from './showCurve.ts';

/**
 * Every method's threshold on the curve with its interval; methods without an answer are listed with the reason.
 * The numbers are in `thresholdTable`.
 */
export function showThresholds(
  readings: Readings,
  curve: FittedCurve,
  result: SamplingResult,
  { display }: { display: Display },
): ChartView {
  const refused = unanswered(result);
  // A curve that could not be fitted leaves the readings themselves to be looked at.
  const drawn = curve.status === 'ok' ? curve : fitCurve(readings, { model: 'raw' });
  return thresholdsChart({
    axis: display.axis,
    x: readings.x,
    y: readings.y,
    curve: curvePoints(drawn),
    rows: chartRows(result, display),
    refused,
    title: 'Every method on the curve',
    summary: summaryOf(result, display, refused.length),
  });
}

function summaryOf(result: SamplingResult, display: Display, refused: number): string {
  const claims = [
    ['LT1', 'first'],
    ['LT2', 'second'],
  ] as const;
  const spans = claims.flatMap(([claim, name]) => {
    const answers = answered(result).filter((a) => a.claim === claim);
    const span = spanWords(answers, display);
    if (span === null) return [];
    return [
      `the ${name} threshold ${span} by ${answers.length} ${answers.length === 1 ? 'method' : 'methods'}`,
    ];
  });
  const found = spans.length === 0 ? 'No method finds a threshold' : `This test puts ${spans.join(', ')}`;
  const without =
    refused === 0 ? '' : `; ${refused} ${refused === 1 ? 'method gives' : 'methods give'} no answer`;
  return (
    `${found}${without}. Bars are 95 % intervals from the errors set for the meter. ` +
    'A mark off the curve belongs to a method that reads another one.'
  );
}

/** Methods with intensity, interval, heart rate, lactate and what to mind. */
export function thresholdTable(result: SamplingResult, { display }: { display: Display }): TableView {
  const { unit, second } = display;
  const groups = (['LT1', 'LT2', 'MLSS'] as const).flatMap((claim) => {
    const rows = [...answerRows(result, display, claim), ...refusalRows(result, claim)];
    const title = { LT1: 'First threshold', LT2: 'Second threshold', MLSS: 'Maximal lactate steady state' }[
      claim
    ];
    return rows.length === 0 ? [] : [{ method: title, tone: 'strong' as const }, ...rows];
  });
  return table({
    caption: 'Thresholds by method',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'intensity', heading: 'Intensity', unit, align: 'right' },
      { key: 'range', heading: '95 % interval', unit, align: 'right' },
      ...(second === null ? [] : [{ key: 'second', heading: 'Same', unit: second, align: 'right' as const }]),
      { key: 'heartRate', heading: 'Heart rate', unit: 'bpm', align: 'right' },
      { key: 'lactate', heading: 'Lactate', unit: 'mmol/L', align: 'right' },
      { key: 'curve', heading: 'Read from' },
      { key: 'remark', heading: 'To mind' },
    ],
    rows: groups,
    note: 'Figures are rounded to what their error allows. Nothing is read outside the tested range.',
  });
}

const answerRows = (result: SamplingResult, display: Display, claim: string): TableRow[] =>
  answered(result)
    .filter((a) => a.claim === claim)
    .map((a) => ({
      method: a.name,
      intensity: bareIntensity(a.intensity, display, { sd: a.sd }),
      range: a.interval === null ? '–' : bareRange(a.interval, display, { sd: a.sd }),
      second: display.second && bareIntensity(a.intensity, display, { in: display.second, sd: a.sd }),
      heartRate: a.heartRate === null ? '–' : a.heartRate.toFixed(0),
      lactate: a.lactate.toFixed(1),
      curve: a.sampling.estimate.curve === null ? 'readings' : MODELS[a.sampling.estimate.curve].name,
      remark: a.warnings.join(' '),
    }));

const refusalRows = (result: SamplingResult, claim: string): TableRow[] =>
  unanswered(result)
    .filter((u) => u.claim === claim)
    .map(({ name, reason }) => ({
      method: name,
      intensity: '–',
      range: '–',
      second: '–',
      heartRate: '–',
      lactate: '–',
      curve: '–',
      remark: reason,
      tone: 'muted' as const,
    }));

/** What a method claims, where it comes from and what bends it, as Markdown. */
export function methodCard(id: string): string {
  const { name, meaning, bias, source } = methodById(id);
  return `**${name}.** ${meaning} ${bias}\n\n*${source}*`;
}
