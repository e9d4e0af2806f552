import type { Axis } from '../base/units.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { points } from './curveChart.ts';
import { COLOUR, claimColour, claimSymbol, isNarrow, picture, pictured } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';
import { type KeyEntry, keyMark, layKey } from './pictureKey.ts';

/** One test: its readings, the curve through them, and the chosen thresholds on it. */
export interface RetestCurve {
  name: string;
  x: ArrayLike<number>;
  y: ArrayLike<number>;
  curve: { x: ArrayLike<number>; y: ArrayLike<number> };
  thresholds: readonly { claim: Claim; intensity: number; lactate: number }[];
}

interface RetestChartData {
  axis: Axis;
  /** The latest first: drawn strongest. */
  tests: readonly RetestCurve[];
  title: string;
  summary: string;
  data?: TableView;
}

/** Told apart by dashes as well as by weight, in the order of the tests. */
const STYLES = [
  { sign: 'curve', strokeWidth: 2 },
  { sign: 'level', strokeWidth: 1.4, strokeDasharray: '6 3' },
  { sign: 'upright', strokeWidth: 1.4, strokeDasharray: '2 3' },
] as const;

/** Tests of one athlete laid over each other, each with its two thresholds. */
export const retestChart = (spec: RetestChartData): ChartView => pictured(spec, drawRetest);

function drawRetest(context: DrawContext, { axis, tests, title, summary }: RetestChartData): SVGSVGElement {
  const { Plot, width } = context;
  const all = tests.flatMap((test) => Array.from(test.x));
  const domain = intensityDomain(Math.min(...all), Math.max(...all));
  const top = Math.max(...tests.flatMap((test) => [...Array.from(test.y), ...Array.from(test.curve.y)]));
  const key = layKey(keyOf(tests), width);
  return picture(context, {
    title,
    summary,
    height: (isNarrow(width) ? 260 : 320) + key.height + intensityFoot(axis) - 44,
    marginLeft: 40,
    marginRight: 16,
    marginTop: key.height + 26,
    marginBottom: intensityFoot(axis),
    x: { domain },
    y: { domain: [0, 1.06 * top] },
    marks: [
      Plot.gridY({ stroke: COLOUR.rule, strokeOpacity: 1, ticks: 6 }),
      Plot.axisY({ label: null, tickSize: 0, ticks: 6 }),
      Plot.text(['Lactate, mmol/L'], { frameAnchor: 'top-left', textAnchor: 'start', dx: -36, dy: -14 }),
      intensityAxis(Plot, axis, domain, width),
      tests.toReversed().map((test) => oneTest(Plot, test, tests.indexOf(test))),
      keyMark(key, COLOUR.ink),
    ],
  });
}

const keyOf = (tests: readonly RetestCurve[]): KeyEntry[] => [
  ...tests.map(({ name }, i) => ({
    sign: STYLES[i % STYLES.length]!.sign,
    text: name,
    colour: i === 0 ? COLOUR.ink : COLOUR.muted,
  })),
  { sign: 'circle', text: 'first threshold', colour: claimColour('LT1') },
  { sign: 'diamond', text: 'second', colour: claimColour('LT2') },
];

function oneTest(
  Plot: DrawContext['Plot'],
  { x, y, curve, thresholds }: RetestCurve,
  i: number,
): ReturnType<typeof intensityAxis> {
  const stroke = i === 0 ? COLOUR.ink : COLOUR.muted;
  return [
    Plot.line(points(curve.x, curve.y), { x: 'x', y: 'y', stroke, ...STYLES[i % STYLES.length]! }),
    Plot.dot(points(x, y), { x: 'x', y: 'y', r: 3, fill: COLOUR.paper, stroke }),
    Plot.dot(thresholds, {
      x: 'intensity',
      y: 'lactate',
      r: 5.5,
      symbol: (t: { claim: Claim }) => claimSymbol(t.claim),
      fill: (t: { claim: Claim }) => claimColour(t.claim),
      fillOpacity: i === 0 ? 1 : 0.4,
      stroke: COLOUR.paper,
    }),
  ];
}
