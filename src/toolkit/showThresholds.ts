import { isPace } from '../base/units.ts';
import { thresholdsChart } from '../charts/thresholdsChart.ts';
import { type FittedCurve, fitCurve } from '../physiology/curves/index.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type StackView, stack, type TableRow, type TableView, table } from '../view/view.ts';
import { bareIntensity, bareRange, type Display } from './display.ts';
import { answered, chartRows, refusalTable, spanWords, unanswered } from './methodRows.ts';
import { CURVE_NAMES, curvePoints } from './showCurve.ts';

/**
 * Every method's threshold on the curve with its interval; methods without an answer are listed beneath with the reason.
 * The numbers are in `thresholdTable`.
 */
export function showThresholds(
  readings: Readings,
  curve: FittedCurve,
  result: SamplingResult,
  { display }: { display: Display },
): StackView {
  const refused = unanswered(result);
  // A curve that could not be fitted leaves the readings themselves to be looked at.
  const drawn = curve.status === 'ok' ? curve : fitCurve(readings, { model: 'raw' });
  const picture = thresholdsChart({
    axis: display.axis,
    x: readings.x,
    y: readings.y,
    curve: curvePoints(drawn),
    rows: chartRows(result, display),
    title: 'Every method on the curve',
    summary: summaryOf(result, display, refused.length),
  });
  return stack(picture, refusalTable(refused));
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
    return rows.length === 0 ? [] : [headingRow(title), ...rows];
  });
  return table({
    caption: 'Thresholds by method',
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'intensity', heading: 'Intensity', unit, align: 'right' },
      { key: 'range', heading: '95 % interval', unit, align: 'right' },
      ...(second === null
        ? []
        : [
            {
              key: 'second',
              heading: isPace(second) ? 'Pace' : 'The same',
              unit: second,
              align: 'right' as const,
            },
          ]),
      { key: 'heartRate', heading: 'Heart rate', unit: 'bpm', align: 'right' },
      { key: 'lactate', heading: 'Lactate', unit: 'mmol/L', align: 'right' },
      { key: 'curve', heading: 'Read from' },
    ],
    rows: groups,
    note: 'Figures are rounded to what their error allows; nothing is read outside the tested range.',
  });
}

const EMPTY = { intensity: '', range: '', second: '', heartRate: '', lactate: '', curve: '' };
const headingRow = (method: string): TableRow => ({ ...EMPTY, method, tone: 'strong' });

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
      curve: a.sampling.estimate.curve === null ? 'readings' : CURVE_NAMES[a.sampling.estimate.curve],
    }));

const refusalRows = (result: SamplingResult, claim: string): TableRow[] =>
  unanswered(result)
    .filter((u) => u.claim === claim)
    .map(({ name }) => ({
      ...EMPTY,
      method: name,
      curve: 'no answer',
      tone: 'muted' as const,
    }));

/** What to mind with single figures, as a Markdown list; methods with the same caution share a line. */
export function thresholdCautions(result: SamplingResult): string {
  const byText = new Map<string, string[]>();
  for (const { name, warnings } of answered(result)) {
    for (const warning of warnings) byText.set(warning, [...(byText.get(warning) ?? []), name]);
  }
  return [...byText].map(([text, names]) => `- **${names.join(', ')}:** ${text}`).join('\n');
}

/** What a method claims, where it comes from and what bends it, as Markdown. */
export function methodCard(id: string): string {
  const { name, meaning, bias, source } = methodById(id);
  return `**${name}.** ${meaning} ${bias}\n\n*${source}*`;
}
