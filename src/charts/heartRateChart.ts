import type { Axis } from '../base/units.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { COLOUR, claimColour, claimSymbol, HALO, isNarrow, picture, pictured } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';

/** Heart rate, bpm, over intensity, W or km/h, with the thresholds that are read off it. */
export interface HeartRateChartData {
  axis: Axis;
  /** One per stage; `counted` false for a stage too short for heart rate to settle. */
  stages: readonly { intensity: number; heartRate: number; counted: boolean }[];
  thresholds: readonly { claim: Claim; intensity: number; heartRate: number; label: string }[];
  title: string;
  summary: string;
  data?: TableView;
}

/** Heart rate against intensity, with the chosen thresholds read across to it. */
export const heartRateChart = (spec: HeartRateChartData): ChartView => pictured(spec, drawHeartRate);

function drawHeartRate(context: DrawContext, spec: HeartRateChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { axis, stages, thresholds, title, summary } = spec;
  const intensities = stages.map((s) => s.intensity);
  const domain = intensityDomain(Math.min(...intensities), Math.max(...intensities));
  const rates = stages.map((s) => s.heartRate);
  const low = Math.floor(Math.min(...rates) / 10) * 10 - 10;
  const high = Math.ceil(Math.max(...rates) / 10) * 10;
  const counted = stages.filter((s) => s.counted);
  return picture(context, {
    title,
    summary,
    height: (isNarrow(width) ? 240 : 280) + intensityFoot(axis) - 44,
    marginLeft: 40,
    marginRight: 16,
    marginTop: 30,
    marginBottom: intensityFoot(axis),
    x: { domain },
    y: { domain: [low, high] },
    marks: [
      Plot.gridY({ stroke: COLOUR.rule, strokeOpacity: 1, ticks: 5 }),
      Plot.axisY({ label: 'Heart rate, bpm', labelAnchor: 'top', labelArrow: 'none', tickSize: 0, ticks: 5 }),
      intensityAxis(Plot, axis, domain, width),
      Plot.line(counted, { x: 'intensity', y: 'heartRate', stroke: COLOUR.ink, strokeWidth: 1.6 }),
      Plot.dot(stages, {
        x: 'intensity',
        y: 'heartRate',
        r: 3.5,
        fill: (s) => (s.counted ? COLOUR.ink : COLOUR.paper),
        stroke: COLOUR.ink,
      }),
      thresholds.flatMap((t) => [
        Plot.ruleX([t.intensity], {
          y1: low,
          y2: t.heartRate,
          stroke: claimColour(t.claim),
          strokeDasharray: '3 3',
        }),
        Plot.ruleY([t.heartRate], {
          x1: domain[0],
          x2: t.intensity,
          stroke: claimColour(t.claim),
          strokeDasharray: '3 3',
        }),
        Plot.dot([t], {
          x: 'intensity',
          y: 'heartRate',
          r: 6,
          symbol: claimSymbol(t.claim),
          fill: claimColour(t.claim),
          stroke: COLOUR.paper,
        }),
        Plot.text([t], {
          x: 'intensity',
          y: 'heartRate',
          text: 'label',
          ...HALO,
          textAnchor: 'end',
          dx: -10,
          dy: -12,
        }),
      ]),
    ],
  });
}
