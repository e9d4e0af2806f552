import type { Axis } from '../base/units.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import type { CurveLine } from './curveChart.ts';
import { points } from './curveChart.ts';
import { COLOUR, claimColour, claimSymbol, isNarrow, picture, pictured, roundTicks } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';
import { intervalMarks } from './intervalMarks.ts';
import type { NamedRow } from './rows.ts';
import { layRows, rowTexts } from './rows.ts';

interface ThresholdRow extends NamedRow {
  intensity: number;
  /** Lactate on the curve the method read. */
  lactate: number;
  /** 95 % interval; an infinite limit lies outside the tested range; null when none can be given. */
  interval: readonly [number, number] | null;
}

/** The readings, mmol/L over W or km/h, their curve, and a row for each method beneath. */
export interface ThresholdsChartData {
  axis: Axis;
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  curve: CurveLine;
  rows: readonly ThresholdRow[];
  title: string;
  summary: string;
  data?: TableView;
}

const ROW = { wide: 26, narrow: 18 };

/** Every method's threshold on the curve, each let down to a row of its own with name, value and interval. */
export const thresholdsChart = (spec: ThresholdsChartData): ChartView => pictured(spec, drawThresholds);

function drawThresholds(context: DrawContext, spec: ThresholdsChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { axis, rows, curve, title, summary } = spec;
  const top = 28;
  const curveHeight = isNarrow(width) ? 190 : 250;
  const foot = top + curveHeight;
  const rowHeight = isNarrow(width) ? ROW.narrow : ROW.wide;
  const layout = layRows(rows, { top: foot, width, rowHeight });
  const domain = intensityDomain(spec.x[0]!, spec.x[spec.x.length - 1]!);
  const peak = Math.max(...Array.from(spec.y), ...Array.from(curve.y)) * 1.06;
  // Heights are pixels, so that the curve and the rows beneath share one picture and one intensity axis.
  const height = (lactate: number) => foot - (lactate / peak) * curveHeight;
  const levels = roundTicks(0, peak, 5);
  const readings = points(spec.x, spec.y);
  return picture(context, {
    title,
    summary,
    height: layout.bottom + intensityFoot(axis),
    marginLeft: Math.max(layout.marginLeft, 34),
    marginRight: layout.marginRight,
    marginTop: 0,
    marginBottom: intensityFoot(axis),
    x: { domain },
    y: { type: 'identity', axis: null },
    marks: [
      Plot.ruleY(levels.map(height), { stroke: COLOUR.rule }),
      Plot.axisY(levels.map(height), { tickFormat: (_, i) => String(levels[i]), tickSize: 0, label: null }),
      Plot.text(['Lactate, mmol/L'], { frameAnchor: 'top-left', textAnchor: 'start', dx: -30, dy: 6 }),
      intensityAxis(Plot, axis, domain, width),
      Plot.ruleX(layout.placed, {
        x: (p) => p.row.intensity,
        y1: (p) => height(p.row.lactate),
        y2: 'y',
        stroke: (p) => claimColour(p.row.claim),
        strokeOpacity: 0.35,
        strokeDasharray: '1 3',
      }),
      Plot.line(points(curve.x, curve.y), {
        x: 'x',
        y: (p) => height(p.y),
        stroke: COLOUR.ink,
        strokeWidth: 1.8,
      }),
      Plot.dot(readings, { x: 'x', y: (p) => height(p.y), r: 3, fill: COLOUR.paper, stroke: COLOUR.ink }),
      rowTexts(Plot, layout, rowHeight),
      Plot.dot(layout.placed, {
        x: (p) => p.row.intensity,
        y: (p) => height(p.row.lactate),
        r: 4.5,
        symbol: (p: { row: ThresholdRow }) => claimSymbol(p.row.claim),
        fill: (p: { row: ThresholdRow }) => claimColour(p.row.claim),
        stroke: COLOUR.paper,
        strokeWidth: 1,
      }),
      intervalMarks(
        layout.placed.map(({ row, y }) => ({ ...row, y: layout.narrow ? y - 2 : y - 4 })),
        domain,
      ),
    ],
  });
}
