import { isPace } from '../base/units.ts';
import { thresholdsChart } from '../charts/thresholdsChart.ts';
import { type FittedCurve, fitCurve, MODELS } from '../physiology/curves/index.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { Readings, StepTest } from '../physiology/stepTest.ts';
import { valuesAt } from '../physiology/valuesAt.ts';
import { type Column, type StackView, stack, type TableRow, type TableView, table } from '../view/view.ts';
import { bareIntensity, bareRange, type Display } from './display.ts';
import { type Answered, answered, chartRows, refusalTable, spanWords, unanswered } from './methodRows.ts';
import { curvePoints } from './showCurve.ts';

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

interface TableOptions {
  display: Display;
  /** The test itself, for exertion and oxygen uptake where it has them. */
  test?: StepTest;
  /** Second threshold, W or km/h: oxygen uptake is read on a line up to it. */
  lt2?: number | null;
}

const TITLES = {
  LT1: 'First threshold',
  LT2: 'Second threshold',
  MLSS: 'Maximal lactate steady state',
} as const;

/** Methods with intensity, interval, and what else was measured there; what each reads is told beneath. */
export function thresholdTable(result: SamplingResult, options: TableOptions): TableView {
  const groups = (['LT1', 'LT2', 'MLSS'] as const).flatMap((claim) => {
    const rows = [...answerRows(result, options, claim), ...refusalRows(result, claim)];
    return rows.length === 0 ? [] : [headingRow(TITLES[claim]), ...rows];
  });
  return table({
    caption: 'Thresholds by method',
    columns: thresholdColumns(options),
    rows: groups,
    note: `${readFrom(result)} Figures are rounded to what their error allows, stages are shown as set; not determined: more than one draw in five gives no answer. Nothing is read outside the tested range.`,
  });
}

function thresholdColumns({ display: { unit, second }, test }: TableOptions): Column[] {
  const align = 'right' as const;
  const oxygen = test?.stages.some((stage) => stage.oxygenUptake != null);
  const exertion = test?.stages.some((stage) => stage.rpe !== null);
  return [
    { key: 'method', heading: 'Method' },
    { key: 'intensity', heading: 'Intensity', unit, align },
    { key: 'range', heading: '95 % interval', unit, align },
    ...(second === null
      ? []
      : [{ key: 'second', heading: isPace(second) ? 'Pace' : 'The same', unit: second, align }]),
    { key: 'lactate', heading: 'Lactate', unit: 'mmol/L', align },
    { key: 'heartRate', heading: 'Heart rate', unit: 'bpm', align },
    ...(exertion ? [{ key: 'rpe', heading: 'RPE', align }] : []),
    ...(oxygen
      ? [{ key: 'oxygen', heading: 'Oxygen uptake', unit: test?.oxygenUptakeUnit ?? 'ml/min', align }]
      : []),
  ];
}

const EMPTY = { intensity: '', range: '', second: '', lactate: '', heartRate: '', rpe: '', oxygen: '' };
const headingRow = (method: string): TableRow => ({ ...EMPTY, method, tone: 'strong' });

const answerRows = (result: SamplingResult, options: TableOptions, claim: string): TableRow[] =>
  answered(result)
    .filter((a) => a.claim === claim)
    .map((a) => answerRow(a, options));

function answerRow(
  { name, intensity, interval, digits, lactate, heartRate }: Answered,
  options: TableOptions,
): TableRow {
  const { display, test, lt2 = null } = options;
  const values = test && valuesAt(test, intensity, { lt2 });
  const perKg = test?.oxygenUptakeUnit === 'ml/min/kg';
  return {
    method: name,
    intensity: bareIntensity(intensity, display, digits),
    range: interval === null ? 'not determined' : bareRange(interval, display, digits),
    second: display.second && bareIntensity(intensity, display, { ...digits, in: display.second }),
    lactate: lactate.toFixed(1),
    heartRate: heartRate === null ? '–' : heartRate.toFixed(0),
    rpe: values?.rpe?.toFixed(1) ?? '–',
    oxygen: values?.oxygenUptake?.toFixed(perKg ? 1 : 0) ?? '–',
    tone: interval === null ? 'muted' : null,
  };
}

const refusalRows = (result: SamplingResult, claim: string): TableRow[] =>
  unanswered(result)
    .filter((u) => u.claim === claim)
    .map(({ name }) => ({ ...EMPTY, method: name, intensity: 'no answer', tone: 'muted' as const }));

/** Which methods read which curve, in one sentence; the curve that most of them read comes last. */
function readFrom(result: SamplingResult): string {
  const byCurve = new Map<string, string[]>();
  for (const { name, sampling } of answered(result)) {
    const curve = sampling.estimate.curve === null ? 'readings alone' : MODELS[sampling.estimate.curve].short;
    byCurve.set(curve, [...(byCurve.get(curve) ?? []), name]);
  }
  const curves = [...byCurve].sort(([, a], [, b]) => a.length - b.length);
  const most = curves.pop();
  if (!most) return '';
  const named = curves.map(([curve, names]) => `${curve} (${names.join(', ')}); `);
  return `Read from: ${named.join('')}${curves.length === 0 ? 'all' : 'all others'} from ${most[0]}.`;
}

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
