import { formatNumber, formatPace, roundToError } from '../base/format.ts';
import {
  type Axis,
  convertIntensity,
  type DisplayUnit,
  displayUnits,
  isPace,
  unitOf,
} from '../base/units.ts';
import type { ErrorModel } from '../physiology/errorModel.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import type { TestData } from '../physiology/stepTest.ts';
import type { Arguments } from './arguments.ts';
import { type Analysis, METER_ERRORS, type ReportedEstimate } from './report.ts';

type Answered = Exclude<ReportedEstimate, { refused: unknown }>;

const METER_NAMES = { handheld: 'handheld meter', bench: 'bench analyser' };

const CAUTION =
  'A threshold depends on method, protocol and meter, and is no medical finding. Drawing blood and maximal effort\n' +
  'carry risks: screen the athlete first, keep to the hygiene rules, and stop at any symptom.';

const isAnswer = (estimate: ReportedEstimate): estimate is Answered => !('refused' in estimate);
const nameOf = (id: string) => methodById(id).name;

/** Columns under their headings: the first `left` of them to the left, the others to the right. */
export function alignColumns(rows: string[][], left = 1): string {
  const widths = rows[0]!.map((_, i) => Math.max(...rows.map((row) => row[i]!.length)));
  const lines = rows.map((row) =>
    row.map((text, i) => (i < left ? text.padEnd(widths[i]!) : text.padStart(widths[i]!))).join('  '),
  );
  return lines.map((line) => line.trimEnd()).join('\n');
}

/** A quarter of a 95 % interval is about one standard deviation: it decides the digits. */
const errorOf = ({ interval }: Answered): number | null => interval && (interval[1] - interval[0]) / 4;

/** Whole watts or tenths of a km/h where no error decides; an answer that is a stage, as its stage was set. */
function intensityWriter(estimate: Answered, axis: Axis): (value: number) => string {
  if (methodById(estimate.method).discrete) return (value) => String(Number(value.toFixed(2)));
  const error = errorOf(estimate);
  if (error !== null && error > 0) return (value) => roundToError(value, error);
  return (value) => formatNumber(value, axis === 'power' ? 0 : 1);
}

/** The 95 % interval, also where an end lies beyond what was tested. */
function intervalText(
  { method }: Answered,
  { methods, lo, hi }: SamplingResult,
  write: (value: number) => string,
): string {
  const interval = methods.find((sampling) => sampling.method === method)?.interval95;
  if (!interval) return '-';
  const { low, high } = interval;
  const from = low.value === null ? `below ${write(lo)}` : write(low.value);
  return `${from} to ${high.value === null ? `above ${write(hi)}` : write(high.value)}`;
}

/** The sizes of a meter's errors in a line. */
function errorSizes(error: ErrorModel): string {
  const percent = (share: number) => `${Number((100 * share).toFixed(1))} %`;
  return [
    `repeatability ${error.repeatability} mmol/L and ${percent(error.repeatabilityShare)}`,
    `calibration ${percent(error.gain)} and ${error.offset} mmol/L (our rule)`,
    `display ${error.rounding} mmol/L`,
    `sample time ${error.delay} s`,
    `contamination of ${percent(error.contamination)} of samples by ${error.contaminationSize} mmol/L`,
    `intensity ${percent(error.intensityScale)} and ${percent(error.intensityJitter)} by stage`,
  ].join(', ');
}

function convertedText(estimate: Answered, axis: Axis, unit: DisplayUnit, mass: number | null): string {
  const value = convertIntensity(estimate.intensity, axis, unit, mass);
  if (value === null) return '-';
  return isPace(unit) ? formatPace(value) : formatNumber(value, 2);
}

function rowOf(estimate: Answered, result: SamplingResult, test: TestData, units: DisplayUnit[]): string[] {
  const { axis, bodyMass } = test;
  const { method, claim, intensity, lactate, heartRate, curve } = estimate;
  const write = intensityWriter(estimate, axis);
  return [
    nameOf(method),
    claim,
    write(intensity),
    intervalText(estimate, result, write),
    ...units.map((unit) => convertedText(estimate, axis, unit, bodyMass)),
    formatNumber(lactate, 1),
    heartRate === null ? '-' : formatNumber(heartRate, 0),
    curve ?? 'readings',
  ];
}

function estimatesTable({ report, result }: Analysis, test: TestData): string {
  const own = unitOf(test.axis);
  // A speed in m/s beside km/h and paces would only widen the table.
  const units = displayUnits(test.sport, test.axis, test.bodyMass).filter(
    (unit) => unit !== own && unit !== 'm/s',
  );
  const headings = ['method', 'claim', own, '95 % interval', ...units, 'mmol/L', 'bpm', 'curve'];
  const rows = report.estimates.filter(isAnswer).map((estimate) => rowOf(estimate, result, test, units));
  return rows.length === 0 ? '' : alignColumns([headings, ...rows]);
}

/** Sentences with the methods they are about before them; methods that share a sentence are named together. */
function byText(said: { method: string; text: string }[]): string[] {
  const methods = new Map<string, string[]>();
  for (const { method, text } of said) methods.set(text, [...(methods.get(text) ?? []), nameOf(method)]);
  return [...methods].map(([text, names]) => `${names.join('; ')}: ${text}`);
}

function section(title: string, lines: string[]): string {
  return lines.length === 0 ? '' : [title, ...lines.map((line) => `  ${line}`)].join('\n');
}

/** The report for a reader: what each method says, why some do not answer, what to be careful about. */
export function reportText(analysis: Analysis, test: TestData, args: Arguments): string {
  const { report } = analysis;
  const error =
    args.draws === 0
      ? 'no sampling error asked for (--draws 0)'
      : `errors of a ${METER_NAMES[args.meter]}, ${args.draws} draws, seed ${args.seed}`;
  // A reader knows which test was done: methods for another one are left to --json.
  const fitting = report.estimates.filter(
    ({ method }) => methodById(method).protocol === (test.protocol ?? 'step'),
  );
  const refused = fitting.flatMap((estimate) =>
    isAnswer(estimate) ? [] : [{ method: estimate.method, text: estimate.refused.reason }],
  );
  const warnings = report.estimates
    .filter(isAnswer)
    .flatMap(({ method, warnings }) => warnings.map((text) => ({ method, text })));
  const parts = [
    `${report.file}: ${report.sport}, ${report.stages} ${test.protocol === 'bouts' ? 'bouts' : 'stages'}; ${error}`,
    args.draws === 0 ? '' : `Standard deviations: ${errorSizes(METER_ERRORS[args.meter])}`,
    section('About the test', report.warnings),
    estimatesTable(analysis, test),
    section('No answer', byText(refused)),
    section('About the methods', byText(warnings)),
    CAUTION,
  ];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}
