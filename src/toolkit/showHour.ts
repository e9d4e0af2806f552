import { formatNumber, withUnit } from '../base/format.ts';
import { type DurationLine, durationChart } from '../charts/durationChart.ts';
import { type BestEfforts, type EffortKind, pointsOf } from '../physiology/training/bestEfforts.ts';
import type { FittedParameter } from '../physiology/training/durationModel.ts';
import { HOUR, type HourAnswer, type HourWay } from '../physiology/training/holdForAnHour.ts';
import { fitHyperbola, type HyperbolaForm } from '../physiology/training/hyperbola.ts';
import { type ChartView, type TableView, table } from '../view/view.ts';
import { type Display, intensityWords } from './display.ts';
import { OPTIMISM_SOURCE, spreadWords, timeWords } from './sayHour.ts';

interface HourOptions {
  display: Display;
  efforts: BestEfforts | null;
  /** W or km/h. */
  claim: number | null;
}

/** Best efforts and every model within its range, with what an hour comes to. */
export function showHour(answer: HourAnswer, { display, efforts, claim }: HourOptions): ChartView {
  const { hour } = answer;
  const counting = answer.ways.filter((way) => way.counts).map((way) => way.name.toLowerCase());
  return durationChart({
    axis: display.axis,
    lines: answer.ways.flatMap(lineOf),
    efforts: efforts?.efforts ?? [],
    hour: hour && { ...hour, label: 'an hour, 95 % range' },
    claim: claim === null ? null : { intensity: claim, label: `claimed ${intensityWords(claim, display)}` },
    title: 'How long what is held',
    summary:
      counting.length === 0
        ? 'Nothing here reaches an hour within its range.'
        : `Asked about an hour: ${counting.join(', ')}. ${hour ? `${counting.length > 1 ? 'Together they say' : 'It says'} ${spreadWords(hour, display)}.` : ''}`,
    data: hourTable(answer, { display, claim }),
  });
}

/** Points of a way within its range; critical intensity is carried on to the hour, to show where it would mislead. */
function lineOf({ curve, counts, name, range, refused }: HourWay): DurationLine[] {
  if (curve === null || refused !== null) return [];
  const [from, to] = [Math.max(120, range.from), Math.min(5400, range.to)];
  const between = (a: number, b: number) =>
    Array.from({ length: 60 }, (_, i) => a * (b / a) ** (i / 59)).map((seconds) => ({
      seconds,
      intensity: curve.intensityFor(seconds),
    }));
  if (counts) return [{ name, points: between(from, to), outside: false }];
  return [{ name, points: between(from, Math.max(to, HOUR)), outside: true }];
}

/** Every way with its range, what it gives for an hour, how long the claim would last, and whether it counts. */
export function hourTable(
  { ways }: HourAnswer,
  { display, claim }: { display: Display; claim: number | null },
): TableView {
  const align = 'right' as const;
  return table({
    caption: 'Every way to an hour',
    columns: [
      { key: 'way', heading: 'By' },
      { key: 'range', heading: 'Holds for', align },
      { key: 'hour', heading: 'An hour', align },
      { key: 'interval', heading: '95 % interval', align },
      ...(claim === null
        ? []
        : [{ key: 'time', heading: `${intensityWords(claim, display)} would last`, align }]),
      { key: 'counts', heading: 'Counts' },
    ],
    rows: ways.map((way) => ({
      way: way.name,
      range: `${timeWords(way.range.from)} to ${timeWords(way.range.to)}`,
      hour: way.hour === null ? '–' : finiteWords(way.hour.median, display),
      interval: way.hour === null ? '–' : spreadWords(way.hour, display),
      time: timeAtClaim(way),
      counts: way.counts ? 'yes' : `no: ${way.why}`,
      tone: way.counts ? null : ('muted' as const),
    })),
    note: 'Times outside the range of a way are no forecast. The ways that count are pooled in equal parts.',
  });
}

const finiteWords = (value: number, display: Display) =>
  Number.isFinite(value) ? intensityWords(value, display) : 'beyond what was tested';

function timeAtClaim({ atClaim, range }: HourWay): string {
  if (atClaim === null) return '–';
  const { low, high } = atClaim;
  if (low > range.to) return `more than ${timeWords(range.to)}`;
  const to = high > range.to ? `more than ${timeWords(range.to)}` : timeWords(high);
  return `${timeWords(Math.max(low, 1))} to ${to}`;
}

/** What each model found in the efforts, with standard errors; null when there is none. */
export function effortFitTable({ ways }: HourAnswer, { display }: { display: Display }): TableView | null {
  const fitted = ways.filter((way) => way.parameters.length > 0);
  if (fitted.length === 0) return null;
  const warnings = [
    ...new Set(fitted.flatMap((way) => way.warnings.map((warning) => `${way.name}: ${warning}`))),
  ];
  return table({
    caption: 'What the models find in the efforts',
    columns: [
      { key: 'model', heading: 'Model' },
      { key: 'what', heading: 'Quantity' },
      { key: 'value', heading: 'Value', align: 'right' },
      { key: 'error', heading: 'Standard error', align: 'right' },
    ],
    rows: fitted.flatMap(({ name, parameters }) =>
      parameters.map((parameter) => ({
        model: name,
        what: parameter.name,
        value: parameterWords(parameter.value, parameter, display),
        error: Number.isNaN(parameter.standardError)
          ? '–'
          : parameterWords(parameter.standardError, parameter, display),
      })),
    ),
    ...(warnings.length > 0 && { note: warnings.join(' ') }),
  });
}

/** A reserve is kJ of work, or metres of distance at a speed in km/h. */
function parameterWords(value: number, { unit }: FittedParameter, { axis, unit: axisUnit }: Display): string {
  switch (unit) {
    case 'reserve':
      return axis === 'power'
        ? withUnit(formatNumber(value / 1000, 1), 'kJ')
        : withUnit(formatNumber(value / 3.6, 0), 'm');
    case 'percent':
      return withUnit(formatNumber(value, 1), '%');
    case 'exponent':
      return formatNumber(value, 3);
    default:
      return withUnit(formatNumber(value, axis === 'power' ? 0 : 1), axisUnit);
  }
}

const FORMS: readonly { form: HyperbolaForm; name: string; kind: EffortKind | null }[] = [
  { form: 'work-time', name: 'Work (distance) over time', kind: null },
  { form: 'inverse-time', name: 'Intensity over 1/time', kind: null },
  { form: 'relative-intensity', name: 'The same, errors in proportion', kind: 'time-trial' },
  { form: 'time', name: 'Time over intensity', kind: null },
  { form: 'log-time', name: 'The same, errors in proportion', kind: 'exhaustion' },
];

/**
 * The two-parameter model by each published form: the same efforts give other figures, for each form puts the error
 * elsewhere. Null with fewer than three efforts.
 */
export function formsTable(efforts: BestEfforts | null, { display }: { display: Display }): TableView | null {
  if (efforts === null || efforts.efforts.length < 3) return null;
  const { seconds, intensity, kind } = pointsOf(efforts);
  const about = { name: '', standardError: NaN };
  return table({
    caption: 'Critical intensity by each published form',
    columns: [
      { key: 'form', heading: 'Fitted' },
      { key: 'critical', heading: 'Critical intensity', align: 'right' },
      { key: 'reserve', heading: 'Reserve', align: 'right' },
      { key: 'used', heading: 'Used' },
    ],
    rows: FORMS.map((one) => {
      const { critical, reserve } = fitHyperbola(seconds, intensity, one.form);
      return {
        form: one.name,
        critical: parameterWords(critical, { ...about, value: critical, unit: 'intensity' }, display),
        reserve: parameterWords(reserve, { ...about, value: reserve, unit: 'reserve' }, display),
        used: one.kind === kind ? 'yes: it puts the error where these efforts carry it' : '',
        tone: one.kind === kind ? ('strong' as const) : null,
      };
    }),
    note: 'Work over time has time on both sides: it looks better than it is (Gaesser 1995, Med Sci Sports Exerc 27:1430–1438, abstract).',
  });
}

const MAXIMAL =
  '- **Mind.** *Best efforts and an hour all out are maximal tests: the cautions at the top hold for them. A chance is no clearance; that is for a doctor to give.*';

/** What each way says and where it comes from, as a Markdown list. */
export const hourSources = ({ ways }: HourAnswer): string =>
  [
    ...ways.map(({ name, meaning, source }) => `- **${name}.** ${meaning} *${source}*`),
    `- **What people say.** *${OPTIMISM_SOURCE}*`,
    MAXIMAL,
  ].join('\n');
