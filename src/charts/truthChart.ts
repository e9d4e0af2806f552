import type * as PlotModule from '@observablehq/plot';
import { formatChange, formatNumber, withUnit } from '../base/format.ts';
import type { Axis } from '../base/units.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { COLOUR, isNarrow, picture, pictured, roundTicks } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';
import { intervalMarks } from './intervalMarks.ts';
import { layRows, type NamedRow, type RowLayout, rowTexts, VALUE_EDGE } from './rows.ts';

/** A method's answer, and where it falls when the test is repeated or others are tested. */
export interface TruthRow extends NamedRow {
  /** On the axis of the chart. */
  at: number;
  interval: readonly [number, number] | null;
}

interface TruthChartData {
  /** Intensities, or per cent of the truth. */
  axis: Axis | 'percent';
  /** What is known to be true, as a line through the rows that claim it. */
  truths: readonly { claim: Claim; at: number; text: string }[];
  rows: readonly TruthRow[];
  title: string;
  summary: string;
  data?: TableView;
}

const ROW = { wide: 26, narrow: 18 };

/** Methods in rows against a truth that is known: how far each dot is from the line is its bias, its bar the scatter. */
export const truthChart = (spec: TruthChartData): ChartView => pictured(spec, drawTruth);

function drawTruth(context: DrawContext, spec: TruthChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { axis, rows, title, summary } = spec;
  const rowHeight = isNarrow(width) ? ROW.narrow : ROW.wide;
  const layout = layRows(rows, { top: 0, width, rowHeight });
  const domain = domainOf(spec);
  const foot = axis === 'percent' ? 44 : intensityFoot(axis);
  return picture(context, {
    title,
    summary,
    height: layout.bottom + foot,
    marginLeft: layout.marginLeft,
    marginRight: layout.marginRight,
    marginTop: 0,
    marginBottom: foot,
    x: { domain },
    y: { type: 'identity', axis: null },
    marks: [
      axis === 'percent' ? percentAxis(Plot, domain, width) : intensityAxis(Plot, axis, domain, width),
      rowTexts(Plot, layout, rowHeight),
      truthMarks(Plot, spec, layout),
      intervalMarks(
        layout.placed.map(({ row, y }) => ({
          claim: row.claim,
          intensity: row.at,
          interval: row.interval,
          y: layout.narrow ? y - 2 : y - 4,
        })),
        domain,
      ),
    ],
  });
}

/** Room for all answers, their bars and the truths. */
function domainOf({ rows, truths }: TruthChartData): [number, number] {
  const all = [...truths, ...rows].map(({ at }) => at).concat(rows.flatMap((row) => row.interval ?? []));
  return intensityDomain(Math.min(...all), Math.max(...all));
}

/** The line through the rows of a claim, and at the right of their heading what it stands for. */
function truthMarks(
  Plot: typeof PlotModule,
  { truths }: TruthChartData,
  { placed, headings, marginRight, narrow }: RowLayout<TruthRow>,
): PlotModule.Markish[] {
  const texts = truths.flatMap((truth) => {
    const heading = headings.find(({ claim }) => claim === truth.claim);
    return heading ? [{ ...truth, y: heading.y }] : [];
  });
  // A piece a row, which leaves out the line of names where these stand above the bars.
  const pieces = placed.flatMap(({ row, y }) => {
    const truth = truths.find(({ claim }) => claim === row.claim);
    return truth ? [{ at: truth.at, top: narrow ? y - 10 : y - 18, bottom: narrow ? y + 6 : y + 8 }] : [];
  });
  return [
    Plot.ruleX(pieces, { x: 'at', y1: 'top', y2: 'bottom', stroke: COLOUR.ink, strokeWidth: 1.6 }),
    Plot.text(texts, {
      frameAnchor: 'right',
      textAnchor: 'end',
      dx: marginRight - VALUE_EDGE,
      y: 'y',
      text: 'text',
      fontWeight: 600,
    }),
  ];
}

const percentAxis = (
  Plot: typeof PlotModule,
  [low, high]: readonly [number, number],
  width: number,
): PlotModule.Markish =>
  Plot.axisX(roundTicks(low, high, isNarrow(width) ? 5 : 9), {
    tickFormat: (value: number) => withUnit(value > 0 ? formatChange(value, 0) : formatNumber(value, 0), '%'),
    tickSize: 4,
    label: 'Off the truth, per cent of it',
    labelAnchor: 'center',
    labelArrow: 'none',
    anchor: 'bottom',
  });
