import type * as PlotModule from '@observablehq/plot';
import type { Axis } from '../base/units.ts';
import type { Construction, Mark } from '../physiology/construction.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { ChartView, DrawContext } from '../view/view.ts';
import { chart } from '../view/view.ts';
import { constructionLines } from './constructionLines.ts';
import { constructionScales, type Scaling, yAxisLabel } from './constructionScales.ts';
import { points } from './curveChart.ts';
import { COLOUR, claimColour, claimSymbol, HALO, isNarrow, picture } from './house.ts';
import { intensityAxis, intensityFoot } from './intensityScale.ts';
import { type KeyEntry, keyMark, layKey } from './pictureKey.ts';

interface ConstructionChartData {
  axis: Axis;
  claim: Claim;
  construction: Construction;
  /** Written beside the answer: `281 W`; null when there is none. */
  answer: string | null;
  /** 95 % interval of the answer on the intensity axis; an infinite limit lies outside the tested range. */
  interval: readonly [number, number] | null;
  title: string;
  summary: string;
}

/** Pixels between the key and the picture, for the name of the vertical axis. */
const AXIS_NAME = 22;

/** How a method finds its answer: data in ink, what the method draws in the colour of its claim. */
export function constructionChart(spec: ConstructionChartData): ChartView {
  const { title, summary } = spec;
  return chart({ title, summary, draw: (context) => drawConstruction(context, spec) });
}

function drawConstruction(context: DrawContext, spec: ConstructionChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { axis, claim, construction, title, summary } = spec;
  const { marks, axes } = construction;
  const scaling = constructionScales(construction);
  const overTime = axes.x === 'minute';
  const key = layKey(keyOf(spec), width);
  const top = key.height + AXIS_NAME;
  const foot = overTime ? intensityFoot('power') : intensityFoot(axis);
  const type = scaling.logarithmic ? 'log' : 'linear';
  return picture(context, {
    title,
    summary,
    height: top + (isNarrow(width) ? 210 : 270) + foot,
    marginLeft: 46,
    marginRight: 16,
    marginTop: top,
    marginBottom: foot,
    x: { type, domain: scaling.x },
    y: { type, domain: scaling.y },
    marks: [
      lactateAxis(Plot, construction, scaling),
      overTime ? minuteAxis(Plot) : intensityAxis(Plot, axis, scaling.x, width),
      curves(Plot, marks),
      constructionLines(construction, claimColour(claim)),
      intervalBar(Plot, spec, scaling),
      dots(Plot, marks, claim),
      answerLabel(Plot, spec, scaling),
      keyMark(key, claimColour(claim)),
    ],
  });
}

const lactateAxis = (
  Plot: typeof PlotModule,
  { axes }: Construction,
  { y, ticks }: Scaling,
): PlotModule.Markish => [
  Plot.gridY(ticks, { stroke: COLOUR.rule, strokeOpacity: 1 }),
  Plot.axisY(ticks, { label: null, tickSize: 0, tickFormat: (value: number) => String(value) }),
  y[0] < 0 ? Plot.ruleY([0], { stroke: COLOUR.muted }) : null,
  Plot.text([yAxisLabel(axes)], { frameAnchor: 'top-left', textAnchor: 'start', dx: -44, dy: -14 }),
];

const minuteAxis = (Plot: typeof PlotModule): PlotModule.Markish =>
  Plot.axisX({ label: 'Time, min', labelAnchor: 'center', labelArrow: 'none', tickSize: 4, ticks: 6 });

const curves = (Plot: typeof PlotModule, marks: readonly Mark[]): PlotModule.Markish =>
  marks.flatMap((mark) =>
    mark.kind === 'curve'
      ? [Plot.line(points(mark.x, mark.y), { x: 'x', y: 'y', stroke: COLOUR.ink, strokeWidth: 1.8 })]
      : [],
  );

function dots(Plot: typeof PlotModule, marks: readonly Mark[], claim: Claim): PlotModule.Markish {
  const readings = marks.flatMap((mark) => (mark.kind === 'readings' ? points(mark.x, mark.y) : []));
  const places = marks.flatMap((mark) =>
    mark.kind === 'point' ? [{ x: mark.at[0], y: mark.at[1], role: mark.role }] : [],
  );
  const aside = places.filter((place) => place.role !== 'answer');
  const answers = places.filter((place) => place.role === 'answer');
  const colour = claimColour(claim);
  return [
    Plot.dot(readings, { x: 'x', y: 'y', r: 3.5, fill: COLOUR.paper, stroke: COLOUR.ink, strokeWidth: 1.4 }),
    Plot.dot(aside, {
      x: 'x',
      y: 'y',
      r: 4,
      symbol: 'square',
      fill: COLOUR.paper,
      stroke: colour,
      strokeWidth: 1.8,
    }),
    Plot.dot(answers, {
      x: 'x',
      y: 'y',
      r: 6,
      symbol: claimSymbol(claim),
      fill: colour,
      stroke: COLOUR.paper,
    }),
  ];
}

/** The 95 % interval as a bar on the foot of the picture, below the answer. */
function intervalBar(
  Plot: typeof PlotModule,
  { construction, claim, interval }: ConstructionChartData,
  { x: [low, high], y: [foot] }: Scaling,
): PlotModule.Markish {
  if (interval === null || construction.axes.x !== 'intensity') return null;
  const bar = { from: Math.max(low, interval[0]), to: Math.min(high, interval[1]) };
  const style = { stroke: claimColour(claim), strokeWidth: 5, strokeOpacity: 0.5 };
  return Plot.ruleY([bar], { x1: 'from', x2: 'to', y: () => foot, ...style });
}

/** Share of the picture's width that an answer to the right of its mark needs. */
const ROOM = 0.25;

/**
 * The answer in words: right of the mark and below it, where a curve that bends upward leaves room; left and above at
 * the right edge; above a peak.
 */
function answerLabel(
  Plot: typeof PlotModule,
  { construction, answer }: ConstructionChartData,
  { x: [low, high] }: Scaling,
): PlotModule.Markish {
  const { marks } = construction;
  const mark = marks.find((m) => m.kind === 'point' && m.role === 'answer');
  if (mark?.kind !== 'point' || answer === null) return null;
  const [x, y] = mark.at;
  const onRight = high - x > ROOM * (high - low);
  const isPeak = marks.every((m) => m.kind !== 'readings' || Math.max(m.y[0]!, m.y.at(-1)!) < y);
  return Plot.text([answer], {
    x: () => x,
    y: () => y,
    ...HALO,
    fontWeight: 600,
    textAnchor: onRight ? 'start' : 'end',
    dx: onRight ? 10 : -10,
    dy: onRight && !isPeak ? 14 : -14,
  });
}

/** What the marks stand for, each kind once. */
function keyOf({ construction, claim, interval }: ConstructionChartData): KeyEntry[] {
  const entries = construction.marks.map((mark): KeyEntry => {
    switch (mark.kind) {
      case 'readings':
        return { sign: 'readings', text: 'readings' };
      case 'curve':
        return { sign: 'curve', text: mark.label };
      case 'line':
        return { sign: mark.role, text: mark.label };
      case 'point':
        return { sign: mark.role === 'answer' ? claimSymbol(claim) : 'anchor', text: mark.label };
      default:
        return { sign: mark.kind, text: mark.label };
    }
  });
  if (interval !== null && construction.axes.x === 'intensity')
    entries.push({ sign: 'interval', text: '95 % interval' });
  return entries.filter((entry, i) => entries.findIndex((other) => other.text === entry.text) === i);
}
