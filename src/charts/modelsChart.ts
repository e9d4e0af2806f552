import type * as PlotModule from '@observablehq/plot';
import type { Axis } from '../base/units.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import type { CurveLine } from './curveChart.ts';
import { points } from './curveChart.ts';
import { COLOUR, picture, pictured, roundTicks } from './house.ts';
import { intensityDomain } from './intensityScale.ts';
import { LETTER } from './rows.ts';

interface ModelPanel extends CurveLine {
  /** Reading minus curve, mmol/L, one per reading. */
  residuals: ArrayLike<number>;
  /** Beneath the name: how well it does. */
  remark: string;
}

/** One test's readings, mmol/L over W or km/h, with each curve and its residuals in a panel of its own. */
export interface ModelsChartData {
  axis: Axis;
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  /** Standard deviation of each reading, mmol/L: the grey band of the residuals is ± 2 of these. */
  readingSd: ArrayLike<number>;
  panels: readonly ModelPanel[];
  title: string;
  summary: string;
  data?: TableView;
}

/** Heights within one panel, as shares of it: curve above, residuals below. */
const CURVE = { top: 0.2, bottom: 0.64 };
const RESIDUAL = { top: 0.7, bottom: 1 };

/** Every curve model in a panel of its own, what it leaves over beneath it on one common scale. */
export const modelsChart = (spec: ModelsChartData): ChartView => pictured(spec, drawPanels);

/** Narrowest a panel may be, pixels: so that its texts do not run into the next one. */
const panelWidth = (panels: readonly ModelPanel[]): number =>
  Math.max(145, ...panels.map(({ name, remark }) => LETTER * Math.max(name.length + 2, remark.length)));

/** The panel's column and row. */
interface Place {
  fx: number;
  fy: number;
}

interface Scales {
  curve(lactate: number): number;
  residual(rest: number): number;
  lactateTicks: number[];
  residualTicks: number[];
}

function panelScales(spec: ModelsChartData): Scales {
  const peak = Math.max(...Array.from(spec.y), ...spec.panels.flatMap((p) => Array.from(p.y))) * 1.05;
  const rests = spec.panels.flatMap((p) => Array.from(p.residuals, Math.abs));
  const reach = Math.max(...rests, ...Array.from(spec.readingSd, (sd) => 2 * sd)) * 1.1;
  const middle = (RESIDUAL.top + RESIDUAL.bottom) / 2;
  return {
    curve: (lactate) => CURVE.bottom - (lactate / peak) * (CURVE.bottom - CURVE.top),
    residual: (rest) => middle - (rest / reach) * (RESIDUAL.bottom - middle),
    lactateTicks: roundTicks(0, peak, 4),
    residualTicks: roundTicks(-reach, reach, 4),
  };
}

function drawPanels(context: DrawContext, spec: ModelsChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { axis, panels, title, summary } = spec;
  const columns = Math.max(1, Math.min(panels.length, Math.floor((width - 34) / panelWidth(panels))));
  const rows = Math.ceil(panels.length / columns);
  const place = (i: number) => ({ fx: i % columns, fy: Math.floor(i / columns) });
  const scales = panelScales(spec);
  const domain = intensityDomain(spec.x[0]!, spec.x[spec.x.length - 1]!);
  const first = panels.map((panel, i) => ({ ...place(i), name: panel.name, remark: panel.remark }));
  return picture(context, {
    title,
    summary,
    height: rows * 236 + 30,
    marginLeft: 34,
    marginRight: 6,
    marginTop: 0,
    marginBottom: 40,
    x: { domain },
    y: { domain: [1, 0], axis: null },
    fx: { domain: Array.from({ length: columns }, (_, i) => i), axis: null, padding: 0.12 },
    fy: { domain: Array.from({ length: rows }, (_, i) => i), axis: null, padding: 0.1 },
    marks: [
      panelFrames(Plot, first, scales),
      Plot.axisX(roundTicks(...domain, 4), {
        label: axis === 'power' ? 'Power, W' : 'Speed, km/h',
        labelAnchor: 'center',
        labelArrow: 'none',
        tickSize: 3,
      }),
      Plot.text(first, { fx: 'fx', fy: 'fy', text: 'name', frameAnchor: 'top-left', fontWeight: 600, dy: 2 }),
      Plot.text(first, {
        fx: 'fx',
        fy: 'fy',
        text: 'remark',
        frameAnchor: 'top-left',
        dy: 18,
        fill: COLOUR.muted,
      }),
      panelMarks(Plot, spec, first, scales),
    ],
  });
}

function panelFrames(
  Plot: typeof PlotModule,
  places: readonly Place[],
  scales: Scales,
): PlotModule.Markish[] {
  const lines = places.flatMap((p) => [
    ...scales.lactateTicks.map((t) => ({ ...p, y: scales.curve(t), text: String(t) })),
    ...scales.residualTicks.map((t) => ({
      ...p,
      y: scales.residual(t),
      text: t > 0 ? `+${t}` : String(t).replace('-', '−'),
    })),
  ]);
  return [
    Plot.ruleY(lines, { fx: 'fx', fy: 'fy', y: 'y', stroke: COLOUR.rule }),
    Plot.text(
      lines.filter((l) => l.fx === 0),
      {
        fx: 'fx',
        fy: 'fy',
        y: 'y',
        text: 'text',
        frameAnchor: 'left',
        textAnchor: 'end',
        dx: -5,
        fill: COLOUR.muted,
      },
    ),
  ];
}

/** Every kind of mark once for all panels: many marks of a few points each are slow to draw. */
function panelMarks(
  Plot: typeof PlotModule,
  spec: ModelsChartData,
  places: readonly Place[],
  scales: Scales,
) {
  const lines = spec.panels.flatMap((panel, i) =>
    points(panel.x, panel.y).map((p) => ({ ...places[i]!, x: p.x, y: scales.curve(p.y) })),
  );
  const readings = spec.panels.flatMap((panel, i) =>
    points(spec.x, spec.y).map((p, k) => ({
      ...places[i]!,
      x: p.x,
      y: scales.curve(p.y),
      rest: scales.residual(panel.residuals[k]!),
      upper: scales.residual(2 * spec.readingSd[k]!),
      lower: scales.residual(-2 * spec.readingSd[k]!),
    })),
  );
  const facet = { fx: 'fx', fy: 'fy', x: 'x' } as const;
  return [
    Plot.areaY(readings, { ...facet, y1: 'lower', y2: 'upper', fill: COLOUR.rule, fillOpacity: 0.55 }),
    Plot.line(lines, { ...facet, y: 'y', stroke: COLOUR.ink, strokeWidth: 1.6 }),
    Plot.dot(readings, {
      ...facet,
      y: 'y',
      r: 2.5,
      fill: COLOUR.paper,
      stroke: COLOUR.ink,
      strokeWidth: 1.2,
    }),
    Plot.ruleX(readings, { ...facet, y1: () => scales.residual(0), y2: 'rest', stroke: COLOUR.ink }),
    Plot.dot(readings, { ...facet, y: 'rest', r: 2.2, fill: COLOUR.ink }),
  ];
}
