import type { Axis } from '../base/units.ts';
import type { ChartView, Handle, TableView } from '../view/view.ts';
import { chart } from '../view/view.ts';
import { COLOUR, HALO, isNarrow, picture } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';

/** A fitted curve as the points to draw. */
export interface CurveLine {
  name: string;
  x: ArrayLike<number>;
  y: ArrayLike<number>;
}

/** A test's readings (intensity in W or km/h, lactate in mmol/L) and the curves through them. */
export interface CurveChartData {
  axis: Axis;
  /** The readings used in the fit. */
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  /** Standard deviation of each reading, mmol/L; null when none is claimed. */
  readingSd: ArrayLike<number> | null;
  /** The first is the chosen one, drawn strongest. */
  curves: readonly CurveLine[];
  title: string;
  summary: string;
  data?: TableView;
  /** For the readings that can be dragged, in their order. */
  handles?: readonly (Handle | null)[];
}

/** Lines are told apart by their dashes as well as by their names. */
const DASHES = ['', '6 3', '2 3', '9 3 2 3', '1 4', '12 4', '4 2 1 2'];

/** Two columns as one list of points. */
export const points = (x: ArrayLike<number>, y: ArrayLike<number>): { x: number; y: number }[] =>
  Array.from(x, (at, i) => ({ x: at, y: y[i]! }));

/** Readings with what the meter may be off, and the curve or curves drawn through them. */
export function curveChart(spec: CurveChartData): ChartView {
  const { axis, readingSd, curves, title, summary } = spec;
  const readings = points(spec.x, spec.y).map((p, i) => ({ ...p, sd: readingSd?.[i] ?? 0 }));
  const lines = curves.flatMap((line, i) =>
    points(line.x, line.y).map((p) => ({ ...p, name: line.name, i })),
  );
  const domain = intensityDomain(spec.x[0]!, spec.x[spec.x.length - 1]!);
  const top = Math.max(...readings.map((r) => r.y + r.sd), ...lines.map((l) => l.y));
  return chart({
    title,
    summary,
    ...(spec.data ? { data: spec.data } : {}),
    ...(spec.handles ? { handles: spec.handles } : {}),
    draw(context) {
      const { Plot, width } = context;
      const narrow = isNarrow(width);
      return picture(context, {
        title,
        summary,
        height: (narrow ? 260 : 340) + intensityFoot(axis) - 44,
        marginLeft: 40,
        marginRight: 16,
        marginTop: 30,
        marginBottom: intensityFoot(axis),
        x: { domain },
        y: { domain: [0, top * 1.06] },
        marks: [
          Plot.gridY({ stroke: COLOUR.rule, strokeOpacity: 1 }),
          Plot.axisY({
            label: 'Lactate, mmol/L',
            labelAnchor: 'top',
            labelArrow: 'none',
            tickSize: 0,
            ticks: 6,
          }),
          intensityAxis(Plot, axis, domain, width),
          curves.map((line, i) =>
            Plot.line(
              lines.filter((l) => l.i === i),
              {
                x: 'x',
                y: 'y',
                stroke: i === 0 ? COLOUR.ink : COLOUR.muted,
                strokeWidth: i === 0 ? 2 : 1.4,
                ...(DASHES[i] ? { strokeDasharray: DASHES[i] } : {}),
                title: () => line.name,
              },
            ),
          ),
          Plot.ruleX(
            readings.filter((r) => r.sd > 0),
            {
              x: 'x',
              y1: (r) => Math.max(0, r.y - r.sd),
              y2: (r) => r.y + r.sd,
              stroke: COLOUR.ink,
              marker: 'tick',
            },
          ),
          Plot.dot(readings, {
            className: 'handles',
            x: 'x',
            y: 'y',
            r: 4,
            fill: COLOUR.paper,
            stroke: COLOUR.ink,
            strokeWidth: 1.6,
          }),
          curveKey(Plot, curves, narrow),
        ],
      });
    },
  });
}

/** Names of the lines, top left, where a lactate curve leaves the picture empty. */
function curveKey(
  Plot: Parameters<typeof intensityAxis>[0],
  curves: readonly CurveLine[],
  narrow: boolean,
): ReturnType<typeof intensityAxis> {
  if (curves.length < 2) return null;
  return curves.flatMap((line, i) => {
    const dy = 12 + i * (narrow ? 16 : 18);
    return [
      keyLine(i, dy),
      Plot.text([line.name], {
        frameAnchor: 'top-left',
        dx: 44,
        dy: dy - 6,
        textAnchor: 'start',
        ...HALO,
        fill: i === 0 ? COLOUR.ink : COLOUR.muted,
      }),
    ];
  });
}

const keyLine =
  (i: number, dy: number): Exclude<ReturnType<typeof intensityAxis>, null | undefined> =>
  (_index, _scales, _values, { marginLeft, marginTop }, { document }) => {
    const line = document.createElementNS('http://www.w3.org/2000/svg', 'line');
    const attributes = {
      x1: marginLeft + 10,
      x2: marginLeft + 38,
      y1: marginTop + dy,
      y2: marginTop + dy,
      stroke: i === 0 ? COLOUR.ink : COLOUR.muted,
      'stroke-width': i === 0 ? 2 : 1.4,
      'stroke-dasharray': DASHES[i % DASHES.length]!,
    };
    for (const [name, value] of Object.entries(attributes)) line.setAttribute(name, String(value));
    return line as SVGElement;
  };
