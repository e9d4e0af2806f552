import type { Axis } from '../base/units.ts';
import { type ChartView, chart, type DrawContext, type TableView } from '../view/view.ts';
import { claimColour, picture, setName } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';
import { type Across, intervalLayers } from './intervalMarks.ts';
import { type Part, place, placed, tenths } from './parts.ts';
import {
  layRows,
  type NamedRow,
  type RowLabel,
  type RowLayout,
  rowHeadings,
  rowLabels,
  VALUE_EDGE,
} from './rows.ts';

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
  data?: () => TableView;
}

const ROW = 44;
const RIDGE = 26;
/** Bars of stages leave room for their share above them. */
const BAR = 14;

/**
 * One ridge a method on one intensity axis: where its answer would fall if the test's errors fell otherwise. Axis and
 * headings are drawn once, and the rest moves upon them: it follows a control that a hand moves.
 */
export function sensitivityChart(spec: SensitivityChartData): ChartView {
  const { axis, lo, hi, rows, title, summary, data } = spec;
  const claims = rows.map(({ claim }) => claim);
  return chart({
    title,
    summary,
    ...(data && { data }),
    still: true,
    draw: (context) => drawRidges(context, spec),
    moving: {
      frame: ({ width }) => {
        const { marginLeft, marginRight } = layoutOf(spec, width);
        return JSON.stringify([axis, lo, hi, width, marginLeft, marginRight, claims]);
      },
      move: (drawn, { width }) => moveRidges(drawn, spec, layoutOf(spec, width)),
    },
  });
}

const layoutOf = ({ rows }: SensitivityChartData, width: number) =>
  layRows(rows, { top: 0, width, rowHeight: ROW });

type Layout = RowLayout<SensitivityRow>;

/** How far above the base line of a row its name stands where it has a line of its own, px. */
const NAME_HEIGHT = ROW - 4;

function drawRidges(context: DrawContext, spec: SensitivityChartData): SVGSVGElement {
  const { Plot, width, document } = context;
  const { axis } = spec;
  const layout = layoutOf(spec, width);
  const domain = intensityDomain(spec.lo, spec.hi);
  const drawn = picture(context, {
    title: spec.title,
    summary: spec.summary,
    height: layout.bottom + intensityFoot(axis),
    marginLeft: layout.marginLeft,
    marginRight: layout.marginRight,
    marginTop: 0,
    marginBottom: intensityFoot(axis),
    x: { domain },
    y: { type: 'identity', axis: null },
    marks: [intensityAxis(Plot, axis, domain, width), rowHeadings(Plot, layout)],
  });
  drawn.append(placed(document, movingLayers(spec, layout)));
  return drawn;
}

/** Moves what hangs on the draws, in the last group of the picture. */
function moveRidges(drawn: SVGSVGElement, spec: SensitivityChartData, layout: Layout): void {
  place(drawn.lastElementChild!, movingLayers(spec, layout));
  setName(drawn, spec);
}

function movingLayers(spec: SensitivityChartData, layout: Layout): Part[][] {
  const { marginLeft, marginRight, width } = layout;
  const [low, high] = intensityDomain(spec.lo, spec.hi);
  const pixels = (width - marginLeft - marginRight) / (high - low);
  const across: Across = { low, high, at: (x) => marginLeft + (x - low) * pixels };
  const bases = layout.placed.map(({ row, y }) => ({ ...row, y: y - 6 }));
  const bars = bases.map((row) => ({ ...row, y: row.y + 4 }));
  return [
    ...labels(layout),
    bases.flatMap((row) => ridge(row, across)),
    bases.flatMap((row) => stageBars(row, across)),
    ...intervalLayers(bars, across),
  ];
}

/** Names at the left edge, values at the right. */
function labels(layout: Layout): [Part[], Part[]] {
  const at = ({ y, ink }: RowLabel) => ({ y, dy: '0.32em', fill: ink });
  const right = { x: layout.width - VALUE_EDGE, 'text-anchor': 'end', 'font-variant': 'tabular-nums' };
  const all = rowLabels(layout, NAME_HEIGHT);
  return [
    all.map((row) => ({ kind: 'text', text: row.name, look: { ...at(row), x: 0, 'text-anchor': 'start' } })),
    all.map((row) => ({ kind: 'text', text: row.value, look: { ...at(row), ...right } })),
  ];
}

type Base = SensitivityRow & { y: number };

/** Every ridge has the same height: its width, not its height, tells how far the answer may lie. */
function ridge({ density, stages, claim, y }: Base, across: Across): Part[] {
  if (density === null || stages !== null) return [];
  const points = ridgeCorners(density, y, across);
  if (points === null) return [];
  const colour = claimColour(claim);
  const look = { points, fill: colour, stroke: colour, 'fill-opacity': 0.28, 'stroke-width': 1.2 };
  return [{ kind: 'polygon', look: { ...look, 'stroke-linejoin': 'round' } }];
}

/** The corners of a ridge upon its base line, to a tenth of a pixel; null where nothing of it is in sight. */
function ridgeCorners(
  { x, y: heights }: NonNullable<Base['density']>,
  y: number,
  across: Across,
): string | null {
  const { low, high, at } = across;
  let peak = 0;
  for (let i = 0; i < heights.length; i++) peak = Math.max(peak, heights[i]!);
  const corners: string[] = [];
  for (let i = 0; i < x.length; i++) {
    if (x[i]! < low || x[i]! > high) continue;
    const right = tenths(at(x[i]!));
    if (corners.length === 0) corners.push(right, tenths(y));
    corners.push(right, tenths(y - (RIDGE * heights[i]!) / peak));
  }
  if (corners.length === 0) return null;
  corners.push(corners.at(-2)!, tenths(y));
  return corners.join(' ');
}

/** Half of what a bar is wide, of the width of the axis. */
const BAR_HALF = 1 / 110;

/** A bar for each stage, with its share where that is not small. */
function stageBars({ stages, claim, y }: Base, { low, high, at }: Across): Part[] {
  const half = (high - low) * BAR_HALF;
  const shown = (stages ?? []).filter(({ share }) => share > 0);
  const peak = Math.max(...shown.map(({ share }) => share));
  return shown.flatMap(({ x, share }): Part[] => {
    const height = (BAR * share) / peak;
    const [left, right] = [at(x - half), at(x + half)];
    const bar = { x: left, y: y - height, width: right - left, height };
    const rect: Part = {
      kind: 'rect',
      look: { ...bar, fill: claimColour(claim), 'fill-opacity': 0.45 },
    };
    if (share < 0.1) return [rect];
    const look = { x: at(x), y: y - height - 7, dy: '0.32em', 'text-anchor': 'middle' };
    return [rect, { kind: 'text', text: `${(100 * share).toFixed(0)} %`, look }];
  });
}
