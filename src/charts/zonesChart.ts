import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { COLOUR, isNarrow, picture, pictured, ZONE_FILL } from './house.ts';

/** Share of training in one zone with its 95 % interval, as fractions. */
interface ZoneBar {
  name: string;
  tone: 'below' | 'between' | 'above';
  share: number;
  low: number;
  high: number;
  label: string;
}

interface ZonesChartData {
  bars: readonly ZoneBar[];
  title: string;
  summary: string;
  data?: TableView;
}

const ROW = 46;

/** Time in each zone as a bar, with what the error of the thresholds makes of it. */
export const zonesChart = (spec: ZonesChartData): ChartView => pictured(spec, drawZones);

function drawZones(context: DrawContext, { bars, title, summary }: ZonesChartData): SVGSVGElement {
  const { Plot, width } = context;
  const rows = bars.map((bar, i) => ({ ...bar, top: 18 + i * ROW }));
  return picture(context, {
    title,
    summary,
    height: 18 + bars.length * ROW + 44,
    marginLeft: 10,
    marginRight: 20,
    marginTop: 0,
    marginBottom: 44,
    x: { domain: [0, 1] },
    y: { type: 'identity', axis: null },
    marks: [
      Plot.rect(rows, {
        x1: () => 0,
        x2: 'share',
        y1: 'top',
        y2: (row) => row.top + 18,
        fill: (row: ZoneBar) => ZONE_FILL[row.tone],
        stroke: COLOUR.muted,
        strokeWidth: 0.6,
      }),
      Plot.ruleY(rows, {
        x1: 'low',
        x2: 'high',
        y: (row) => row.top + 9,
        stroke: COLOUR.ink,
        strokeWidth: 1.6,
        marker: 'tick',
      }),
      Plot.text(rows, {
        x: () => 0,
        y: (row) => row.top - 8,
        text: (row) => `${row.name}: ${row.label}`,
        textAnchor: 'start',
        fill: COLOUR.ink,
      }),
      Plot.axisX({
        label: 'Share of time, %',
        labelAnchor: 'center',
        labelArrow: 'none',
        tickSize: 4,
        ticks: isNarrow(width) ? 5 : 10,
        tickFormat: (share: number) => (100 * share).toFixed(0),
      }),
    ],
  });
}
