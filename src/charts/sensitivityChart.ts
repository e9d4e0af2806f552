import type * as PlotModule from '@observablehq/plot';
import type { Axis } from '../base/units.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { claimColour, picture, pictured } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';
import { intervalMarks } from './intervalMarks.ts';
import type { NamedRow } from './rows.ts';
import { layRows, rowTexts } from './rows.ts';

/** One method: its answer and where it would have landed had the errors fallen otherwise; W or km/h. */
export interface SensitivityRow extends NamedRow {
  intensity: number;
  interval: readonly [number, number] | null;
  /** How the draws spread, reduced before it gets here; null when too few draws had an answer. */
  density: { x: ArrayLike<number>; y: ArrayLike<number> } | null;
  /** For methods that answer with a stage: the share of draws at each; null for the others. */
  stages: readonly { x: number; share: number }[] | null;
}

/** The spread of every method over the tested range, `lo` to `hi`, W or km/h. */
export interface SensitivityChartData {
  axis: Axis;
  lo: number;
  hi: number;
  rows: readonly SensitivityRow[];
  title: string;
  summary: string;
  data?: TableView;
}

const ROW = 44;
const RIDGE = 26;
/** Bars of stages leave room for their share above them. */
const BAR = 14;

/** One ridge a method on one intensity axis: where its answer would fall if the test's errors fell otherwise. */
export const sensitivityChart = (spec: SensitivityChartData): ChartView => pictured(spec, drawRidges);

function drawRidges(context: DrawContext, spec: SensitivityChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { axis, rows, title, summary } = spec;
  const layout = layRows(rows, { top: 0, width, rowHeight: ROW });
  const domain = intensityDomain(spec.lo, spec.hi);
  const bases = layout.placed.map(({ row, y }) => ({ ...row, y: y - 6 }));
  return picture(context, {
    title,
    summary,
    height: layout.bottom + intensityFoot(axis),
    marginLeft: layout.marginLeft,
    marginRight: layout.marginRight,
    marginTop: 0,
    marginBottom: intensityFoot(axis),
    x: { domain },
    y: { type: 'identity', axis: null },
    marks: [
      intensityAxis(Plot, axis, domain, width),
      rowTexts(Plot, layout, layout.narrow ? ROW - 4 : 12),
      ridges(bases, domain),
      stageBars(Plot, bases, (domain[1] - domain[0]) / 110),
      intervalMarks(
        Plot,
        bases.map((row) => ({ ...row, y: row.y + 4 })),
        domain,
      ),
    ],
  });
}

type Base = SensitivityRow & { y: number };

const SVG = 'http://www.w3.org/2000/svg';
const RIDGE_LOOK = { 'fill-opacity': 0.28, 'stroke-width': 1.2, 'stroke-linejoin': 'round' };

/**
 * Every ridge has the same height: its width, not its height, tells how far the answer may lie. They are drawn as paths and
 * not as areas of Plot, whose bookkeeping of each of their points took half of the time of the picture.
 */
const ridges =
  (bases: readonly Base[], domain: readonly [number, number]): PlotModule.RenderFunction =>
  (_index, { x }, _values, _dimensions, { document }) => {
    const group = document.createElementNS(SVG, 'g');
    for (const row of bases) {
      const outline = ridge(row, domain, x!);
      if (outline === null) continue;
      const path = document.createElementNS(SVG, 'path');
      const colour = claimColour(row.claim);
      const look = { d: outline, fill: colour, stroke: colour, ...RIDGE_LOOK };
      for (const [name, value] of Object.entries(look)) path.setAttribute(name, String(value));
      group.append(path);
    }
    return group as SVGElement;
  };

/** The outline of a ridge upon its base line, to a tenth of a pixel; null without a ridge. */
function ridge(
  { density, stages, y }: Base,
  [low, high]: readonly [number, number],
  scale: (x: number) => number,
): string | null {
  if (density === null || stages !== null) return null;
  const peak = Math.max(...Array.from(density.y));
  const top: string[] = [];
  let [left, right] = [Number.NaN, Number.NaN];
  for (let i = 0; i < density.x.length; i++) {
    const x = density.x[i]!;
    if (x < low || x > high) continue;
    right = tenths(scale(x));
    if (top.length === 0) left = right;
    top.push(`${right},${tenths(y - (RIDGE * density.y[i]!) / peak)}`);
  }
  return top.length === 0 ? null : `M${left},${y}L${top.join('L')}L${right},${y}Z`;
}

const tenths = (pixels: number): number => Math.round(10 * pixels) / 10;

function stageBars(Plot: typeof PlotModule, bases: readonly Base[], half: number): PlotModule.Markish[] {
  const bars = bases.flatMap((row) => {
    const peak = Math.max(...(row.stages ?? []).map((s) => s.share));
    return (row.stages ?? [])
      .filter((s) => s.share > 0)
      .map((s) => ({
        ...s,
        y1: row.y,
        y2: row.y - (BAR * s.share) / peak,
        colour: claimColour(row.claim),
      }));
  });
  return [
    Plot.rect(bars, {
      x1: (b) => b.x - half,
      x2: (b) => b.x + half,
      y1: 'y1',
      y2: 'y2',
      fill: 'colour',
      fillOpacity: 0.45,
    }),
    Plot.text(
      bars.filter((b) => b.share >= 0.1),
      { x: 'x', y: 'y2', dy: -7, text: (b) => `${(100 * b.share).toFixed(0)} %` },
    ),
  ];
}
