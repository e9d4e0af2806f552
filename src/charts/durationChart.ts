import type * as PlotModule from '@observablehq/plot';
import { formatNumber } from '../base/format.ts';
import type { Axis } from '../base/units.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { COLOUR, HALO, isNarrow, picture, pictured } from './house.ts';
import { type KeyEntry, keyMark, layKey } from './pictureKey.ts';

/** One model of how long an intensity lasts, as points; seconds, W or km/h. */
export interface DurationLine {
  name: string;
  points: readonly { seconds: number; intensity: number }[];
  /** True where it may not be asked: drawn faint, and named so in the key. */
  outside: boolean;
}

interface DurationChartData {
  axis: Axis;
  lines: readonly DurationLine[];
  efforts: readonly { seconds: number; intensity: number }[];
  /** What an hour comes to with its 95 % interval; an infinite end lies beyond the tested range. */
  hour: { median: number; low: number; high: number; label: string } | null;
  claim: { intensity: number; label: string } | null;
  title: string;
  summary: string;
  data?: TableView;
}

/** How the lines that count are told apart, in their order. */
const STYLES = [
  { sign: 'curve', strokeWidth: 1.8 },
  { sign: 'tangent', strokeWidth: 1.4, strokeDasharray: '9 3' },
  { sign: 'level', strokeWidth: 1.2, strokeDasharray: '6 3' },
] as const;
const OUTSIDE = { sign: 'upright', strokeWidth: 1, strokeDasharray: '2 3' } as const;
const MINUTES = [2, 5, 10, 20, 40, 60, 90];

/** Best efforts, the models through them, and what each comes to at an hour. */
export const durationChart = (spec: DurationChartData): ChartView => pictured(spec, drawDuration);

/** Colour of a line: ink for what counts, muted for what does not. */
const styled = (lines: readonly DurationLine[]) => {
  const counting = lines.filter((line) => !line.outside);
  return lines.map((line) => ({
    ...line,
    stroke: line.outside ? COLOUR.muted : COLOUR.ink,
    style: line.outside ? OUTSIDE : STYLES[counting.indexOf(line) % STYLES.length]!,
  }));
};

function drawDuration(context: DrawContext, spec: DurationChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { efforts, hour, claim, title, summary } = spec;
  const lines = styled(spec.lines);
  const key = layKey(keyOf(lines, spec), width);
  const [low, high] = intensityRange(spec);
  const points = [...spec.lines.flatMap((line) => line.points), ...efforts];
  const domain = [Math.min(900, ...points.map((p) => p.seconds)) * 0.9, 5400];
  const ticks = MINUTES.filter((m) => 60 * m >= domain[0]!);
  return picture(context, {
    title,
    summary,
    height: (isNarrow(width) ? 260 : 320) + key.height,
    marginLeft: 44,
    marginRight: 16,
    marginTop: key.height + 26,
    marginBottom: 44,
    x: { type: 'log', domain },
    y: { domain: [low, high] },
    marks: [
      Plot.gridY({ stroke: COLOUR.rule, strokeOpacity: 1, ticks: 5 }),
      Plot.axisY({ label: null, tickSize: 0, ticks: 5 }),
      Plot.text([spec.axis === 'power' ? 'Power, W' : 'Speed, km/h'], {
        frameAnchor: 'top-left',
        textAnchor: 'start',
        dx: -40,
        dy: -14,
      }),
      Plot.axisX(
        ticks.map((m) => 60 * m),
        {
          // Not as tickFormat, which leaves out most ticks of a logarithmic scale when it is narrow.
          text: (seconds: number) => formatNumber(seconds / 60, 0),
          label: 'Time held, min',
          labelAnchor: 'center',
          labelArrow: 'none',
          tickSize: 4,
        },
      ),
      Plot.ruleX([3600], { stroke: COLOUR.muted, strokeWidth: 1 }),
      lines.map(({ points: at, stroke, style }) =>
        Plot.line(
          at.filter((p) => p.intensity >= low && p.intensity <= high),
          { x: 'seconds', y: 'intensity', stroke, ...style },
        ),
      ),
      claimRule(Plot, claim, domain),
      Plot.dot(efforts, {
        x: 'seconds',
        y: 'intensity',
        r: 4,
        fill: COLOUR.paper,
        stroke: COLOUR.ink,
        strokeWidth: 1.6,
      }),
      hourBar(Plot, hour, [low, high]),
      keyMark(key, COLOUR.ink),
    ],
  });
}

type Plots = DrawContext['Plot'];
type Marks = PlotModule.Markish;

function claimRule(Plot: Plots, claim: DurationChartData['claim'], domain: number[]): Marks {
  if (claim === null) return [];
  return [
    Plot.ruleY([claim.intensity], { stroke: COLOUR.caution, strokeWidth: 1.6 }),
    Plot.text([claim.label], {
      x: () => domain[0]!,
      y: () => claim.intensity,
      ...HALO,
      fill: COLOUR.caution,
      textAnchor: 'start',
      dx: 6,
      dy: 11,
    }),
  ];
}

/** The interval as an upright bar on the hour, cut at the edges of the picture. */
function hourBar(
  Plot: Plots,
  hour: DurationChartData['hour'],
  [low, high]: readonly [number, number],
): Marks {
  if (hour === null) return [];
  const bar = { from: Math.max(low, hour.low), to: Math.min(high, hour.high) };
  return [
    Plot.ruleX([bar], {
      x: () => 3600,
      y1: 'from',
      y2: 'to',
      stroke: COLOUR.second,
      strokeWidth: 5,
      strokeOpacity: 0.5,
    }),
    Plot.dot([hour], {
      x: () => 3600,
      y: 'median',
      r: 6,
      symbol: 'diamond',
      fill: COLOUR.second,
      stroke: COLOUR.paper,
    }),
  ];
}

/** From what is drawn, so that a hyperbola's steep beginning does not squeeze the rest. */
function intensityRange({ efforts, lines, hour, claim }: DurationChartData): [number, number] {
  const finite = (values: (number | undefined)[]) => values.filter((v): v is number => Number.isFinite(v));
  const atHour = lines.flatMap(({ points }) =>
    points.filter((p) => p.seconds >= 1200).map((p) => p.intensity),
  );
  const all = finite([
    ...efforts.map((e) => e.intensity),
    hour?.low,
    hour?.high,
    claim?.intensity,
    ...atHour,
  ]);
  const [low, high] = [Math.min(...all), Math.max(...all)];
  const air = 0.08 * (high - low) + 0.01 * high;
  return [low - air, high + air];
}

function keyOf(lines: ReturnType<typeof styled>, { efforts, hour }: DurationChartData): KeyEntry[] {
  const counting = lines.filter((line) => !line.outside);
  return [
    ...(efforts.length > 0 ? [{ sign: 'readings' as const, text: 'best efforts' }] : []),
    ...(hour ? [{ sign: 'diamond' as const, text: hour.label, colour: COLOUR.second }] : []),
    ...counting.map(({ name, style }) => ({ sign: style.sign, text: name.toLowerCase() })),
    ...(counting.length < lines.length
      ? [{ sign: OUTSIDE.sign, text: 'not asked about an hour', colour: COLOUR.muted }]
      : []),
  ];
}
