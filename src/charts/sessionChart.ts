import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { COLOUR, HALO, isNarrow, picture, pictured } from './house.ts';
import { type KeyEntry, keyMark, layKey } from './pictureKey.ts';

/** How a reading is shown: above the second threshold, at or under it, or too early to tell. */
export type ReadingTone = 'above' | 'under' | 'early';

/** Lactate, mmol/L, over the minutes worked in a session, rests left out. */
export interface SessionChartData {
  /** Each rep over the minutes worked; `label` stands at its top. */
  reps: readonly { from: number; to: number; label: string }[];
  readings: readonly { work: number; lactate: number; tone: ReadingTone }[];
  /** What reps right at the second threshold would show, rep by rep. */
  course: readonly { points: readonly { work: number; low: number; high: number }[] }[];
  title: string;
  summary: string;
  data?: TableView;
}

type Marks = ReturnType<DrawContext['Plot']['dot']>[];

/** Lactate over the minutes worked against what the same reps would show right at the second threshold. */
export const sessionChart = (spec: SessionChartData): ChartView => pictured(spec, drawSession);

const SYMBOLS = { above: 'diamond', under: 'circle', early: 'square' } as const;

function keyOf({ readings }: SessionChartData): KeyEntry[] {
  const has = (tone: ReadingTone) => readings.some((reading) => reading.tone === tone);
  return [
    { sign: 'span', text: 'reps right at the threshold' },
    ...(has('above') ? [{ sign: 'diamond', text: 'reading called above' } as const] : []),
    ...(has('under') ? [{ sign: 'readings', text: 'called at or under' } as const] : []),
    ...(has('early') ? [{ sign: 'anchor', text: 'too early to tell' } as const] : []),
  ];
}

function drawSession(context: DrawContext, spec: SessionChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { reps, readings, course, title, summary } = spec;
  const end = reps.at(-1)!.to;
  const heights = [
    ...readings.map((r) => r.lactate),
    ...course.flatMap(({ points }) => points.map((p) => p.high)),
  ];
  const top = 1.25 * Math.max(1, ...heights);
  const key = layKey(keyOf(spec), width);
  return picture(context, {
    title,
    summary,
    height: key.height + (isNarrow(width) ? 250 : 300),
    marginLeft: 40,
    marginRight: 16,
    marginTop: key.height + 44,
    marginBottom: 40,
    x: { domain: [0, end] },
    y: { domain: [0, top] },
    marks: [
      Plot.gridY({ stroke: COLOUR.rule, strokeOpacity: 1, ticks: 5 }),
      Plot.axisY({ label: null, tickSize: 0, ticks: 5 }),
      Plot.text(['Lactate, mmol/L'], { frameAnchor: 'top-left', textAnchor: 'start', dx: -38, dy: -34 }),
      Plot.axisX({
        label: 'Minutes of work',
        labelAnchor: 'center',
        labelArrow: 'none',
        tickSize: 4,
        ticks: 6,
      }),
      ...repMarks(context, spec),
      ...course.map(({ points }) =>
        Plot.areaY(points, { x: 'work', y1: 'low', y2: 'high', fill: COLOUR.second, fillOpacity: 0.14 }),
      ),
      ...readingMarks(context, readings),
      keyMark(key, COLOUR.second),
    ],
  });
}

/** Where reps begin, and their names above the frame where they have room. */
function repMarks({ Plot, width }: DrawContext, { reps }: SessionChartData): Marks {
  const end = reps.at(-1)!.to;
  const room = (width - 56) / end;
  const fits = reps.every(({ from, to, label }) => (to - from) * room > 6.8 * label.length + 6);
  return [
    Plot.ruleX(reps.slice(1), { x: 'from', stroke: COLOUR.rule, strokeWidth: 1.5 }),
    Plot.text(reps, {
      x: (rep: { from: number; to: number }) => (rep.from + rep.to) / 2,
      frameAnchor: 'top',
      dy: -12,
      text: (rep: { label: string }, i: number) => (fits ? rep.label : String(i + 1)),
      fill: COLOUR.muted,
    }),
  ];
}

function readingMarks({ Plot }: DrawContext, readings: SessionChartData['readings']): Marks {
  const isAbove = ({ tone }: { tone: ReadingTone }) => tone === 'above';
  return [
    Plot.dot(readings, {
      x: 'work',
      y: 'lactate',
      r: 5,
      symbol: ({ tone }: { tone: ReadingTone }) => SYMBOLS[tone],
      fill: (reading) => (isAbove(reading) ? COLOUR.second : COLOUR.paper),
      stroke: ({ tone }: { tone: ReadingTone }) => (tone === 'under' ? COLOUR.ink : COLOUR.second),
      strokeWidth: 1.6,
    }),
    Plot.text(readings, {
      x: 'work',
      y: 'lactate',
      text: ({ lactate }: { lactate: number }) => lactate.toFixed(1),
      ...HALO,
      textAnchor: 'end',
      dx: -8,
      dy: -8,
    }),
  ];
}
