import type { Axis } from '../base/units.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { COLOUR, claimColour, HALO, isNarrow, picture, pictured } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';

interface DemandChartData {
  axis: Axis;
  /** Carbohydrate burned, g/h, over intensity. */
  points: readonly { intensity: number; median: number; low: number; high: number }[];
  thresholds: readonly { claim: Claim; intensity: number }[];
  /** The planned intensity. */
  planned: { intensity: number; label: string } | null;
  title: string;
  summary: string;
  data?: TableView;
}

/** Carbohydrate that an hour burns, as a band over intensity. */
export const demandChart = (spec: DemandChartData): ChartView => pictured(spec, drawDemand);

function drawDemand(context: DrawContext, spec: DemandChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { axis, points, thresholds, planned, title, summary } = spec;
  const domain = intensityDomain(points[0]!.intensity, points.at(-1)!.intensity);
  const top = 1.1 * Math.max(...points.map((point) => point.high));
  return picture(context, {
    title,
    summary,
    height: (isNarrow(width) ? 230 : 270) + intensityFoot(axis) - 44,
    marginLeft: 40,
    marginRight: 16,
    marginTop: 40,
    marginBottom: intensityFoot(axis),
    x: { domain },
    y: { domain: [0, top] },
    marks: [
      Plot.gridY({ stroke: COLOUR.rule, strokeOpacity: 1, ticks: 5 }),
      Plot.axisY({ label: null, tickSize: 0, ticks: 5 }),
      Plot.text(['Carbohydrate burned, g/h'], {
        frameAnchor: 'top-left',
        textAnchor: 'start',
        dx: -36,
        dy: -32,
      }),
      intensityAxis(Plot, axis, domain, width),
      Plot.areaY(points, { x: 'intensity', y1: 'low', y2: 'high', fill: COLOUR.ink, fillOpacity: 0.12 }),
      Plot.line(points, { x: 'intensity', y: 'median', stroke: COLOUR.ink, strokeWidth: 1.8 }),
      Plot.ruleX(thresholds, {
        x: 'intensity',
        stroke: (t: { claim: Claim }) => claimColour(t.claim),
        strokeDasharray: '6 3',
      }),
      Plot.text(thresholds, {
        x: 'intensity',
        frameAnchor: 'top',
        text: 'claim',
        dy: -12,
        fill: (t: { claim: Claim }) => claimColour(t.claim),
        fontWeight: 600,
      }),
      plannedMark(Plot, spec, planned),
    ],
  });
}

function plannedMark(
  Plot: DrawContext['Plot'],
  { points }: DemandChartData,
  planned: DemandChartData['planned'],
): ReturnType<typeof intensityAxis> {
  if (planned === null) return null;
  const nearest = points.reduce((a, b) =>
    Math.abs(b.intensity - planned.intensity) < Math.abs(a.intensity - planned.intensity) ? b : a,
  );
  return [
    Plot.ruleX([nearest], {
      x: () => planned.intensity,
      y1: 'low',
      y2: 'high',
      stroke: COLOUR.second,
      strokeWidth: 5,
      strokeOpacity: 0.5,
    }),
    Plot.text([planned.label], {
      x: () => planned.intensity,
      y: () => nearest.low,
      ...HALO,
      textAnchor: 'end',
      dx: -8,
      dy: 14,
    }),
  ];
}
