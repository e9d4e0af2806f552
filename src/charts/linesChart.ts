import type { Axis } from '../base/units.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { ChartView, DrawContext, TableView } from '../view/view.ts';
import { COLOUR, claimColour, claimSymbol, isNarrow, picture, pictured, roundTicks } from './house.ts';
import { intensityAxis, intensityDomain, intensityFoot } from './intensityScale.ts';
import { type KeyEntry, keyMark, layKey, SIGNS } from './pictureKey.ts';

/** One line of a picture, in the order of its points. */
interface PlainLine {
  name: string;
  x: ArrayLike<number>;
  y: ArrayLike<number>;
}

interface LinesChartData {
  /** What lies along the foot: intensities, or anything else by its name. */
  foot: Axis | { label: string };
  yLabel: string;
  /** From 0 when left out. */
  yLow?: number;
  /** Told apart by dashes, in their order. */
  lines: readonly PlainLine[];
  /** Place of the line that is drawn stronger than the others. */
  strongest?: number;
  /** Whether the points of the lines are marked. */
  dots?: boolean;
  /** A place along the foot, and a height, that are known or asked for. */
  upright?: { at: number; text: string };
  level?: { at: number; text: string };
  /** Stretches along the foot, shaded. */
  spans?: { text: string; at: readonly { from: number; to: number }[] };
  /** Answers of methods. */
  marks?: readonly { x: number; y: number; claim: Claim }[];
  marksName?: string;
  title: string;
  summary: string;
  data?: TableView;
}

type Marks = ReturnType<typeof intensityAxis>;

const STYLES = ['curve', 'level', 'upright', 'tangent', 'bisector'] as const;

interface Look {
  sign: (typeof STYLES)[number];
  colour: string;
  strokeWidth: number;
}

function lookOf({ strongest }: LinesChartData, i: number): Look {
  const isMuted = strongest !== undefined && i !== strongest;
  return {
    sign: STYLES[i % STYLES.length]!,
    colour: isMuted ? COLOUR.muted : COLOUR.ink,
    strokeWidth: i === strongest ? 2.2 : 1.5,
  };
}

/** Lines over one foot, with what they are held against: a line for what is true, one for a level, dots for answers. */
export const linesChart = (spec: LinesChartData): ChartView => pictured(spec, drawLines);

function drawLines(context: DrawContext, spec: LinesChartData): SVGSVGElement {
  const { Plot, width } = context;
  const { foot, lines, yLabel, title, summary, upright, level } = spec;
  const key = layKey(keyOf(spec), width);
  const x = xDomain(spec);
  const y = yDomain(spec);
  const below = typeof foot === 'string' ? intensityFoot(foot) : 44;
  return picture(context, {
    title,
    summary,
    height: (isNarrow(width) ? 230 : 290) + key.height + below,
    marginLeft: 44,
    marginRight: 18,
    marginTop: key.height + 38,
    marginBottom: below,
    x: { domain: x },
    y: { domain: y },
    marks: [
      Plot.gridY({ stroke: COLOUR.rule, strokeOpacity: 1, ticks: 6 }),
      Plot.axisY({ label: null, tickSize: 0, ticks: 6 }),
      Plot.text([yLabel], { frameAnchor: 'top-left', textAnchor: 'start', dx: -40, dy: -26 }),
      footAxis(context, spec, x),
      spanMarks(context, spec),
      upright && uprightMarks(context, upright, x),
      level && Plot.ruleY([level.at], { stroke: COLOUR.second, strokeDasharray: '6 3' }),
      lines.map((line, i) => lineMarks(context, line, lookOf(spec, i), spec.dots ?? false)),
      Plot.dot(spec.marks ?? [], {
        x: 'x',
        y: 'y',
        r: 5.5,
        symbol: (mark: { claim: Claim }) => claimSymbol(mark.claim),
        fill: (mark: { claim: Claim }) => claimColour(mark.claim),
        stroke: COLOUR.paper,
      }),
      keyMark(key, COLOUR.second),
    ],
  });
}

function keyOf(spec: LinesChartData): KeyEntry[] {
  const { lines, level, spans, marks = [], marksName = 'answer' } = spec;
  const claim = marks[0]?.claim;
  return [
    ...lines.map(({ name }, i) => ({ ...lookOf(spec, i), text: name })),
    ...(level ? [{ sign: 'level' as const, text: level.text, colour: COLOUR.second }] : []),
    ...(spans ? [{ sign: 'span' as const, text: spans.text, colour: COLOUR.undecided }] : []),
    ...(claim ? [{ sign: claimSymbol(claim), text: marksName, colour: claimColour(claim) }] : []),
  ];
}

function xDomain({ foot, lines, upright }: LinesChartData): [number, number] {
  const all = [...lines.flatMap((line) => Array.from(line.x)), ...(upright ? [upright.at] : [])];
  const [low, high] = [Math.min(...all), Math.max(...all)];
  return typeof foot === 'string' ? intensityDomain(low, high) : [low, high];
}

function yDomain({ lines, level, marks = [], yLow }: LinesChartData): [number, number] {
  const all = [...lines.flatMap((line) => Array.from(line.y)), ...marks.map((mark) => mark.y)];
  if (level) all.push(level.at);
  const top = Math.max(...all);
  const low = yLow === undefined ? 0 : Math.min(yLow, ...all);
  return [low, top + 0.06 * (top - low)];
}

function footAxis({ Plot, width }: DrawContext, { foot }: LinesChartData, x: [number, number]): Marks {
  if (typeof foot === 'string') return intensityAxis(Plot, foot, x, width);
  return Plot.axisX(roundTicks(x[0], x[1], isNarrow(width) ? 5 : 9), {
    label: foot.label,
    labelAnchor: 'center',
    labelArrow: 'none',
    tickSize: 4,
    anchor: 'bottom',
  });
}

const spanMarks = ({ Plot }: DrawContext, { spans }: LinesChartData): Marks =>
  spans ? Plot.rectX(spans.at, { x1: 'from', x2: 'to', fill: COLOUR.undecided, fillOpacity: 0.14 }) : null;

function uprightMarks(
  { Plot }: DrawContext,
  { at, text }: { at: number; text: string },
  [low, high]: [number, number],
): Marks {
  return [
    Plot.ruleX([at], { stroke: COLOUR.ink, strokeWidth: 1.6 }),
    Plot.text([text], {
      x: [at],
      frameAnchor: 'top',
      textAnchor: at > (low + high) / 2 ? 'end' : 'start',
      dy: -12,
      fontWeight: 600,
    }),
  ];
}

function lineMarks(
  { Plot }: DrawContext,
  { name, x, y }: PlainLine,
  { sign, colour, strokeWidth }: Look,
  dots: boolean,
): Marks {
  const points = Array.from(x, (at, j) => ({ x: at, y: y[j]! }));
  const look: Record<string, string | number> = SIGNS[sign](colour);
  const dashes = look['stroke-dasharray'];
  return [
    Plot.line(points, {
      x: 'x',
      y: 'y',
      stroke: colour,
      strokeWidth,
      ...(dashes ? { strokeDasharray: String(dashes) } : {}),
      title: () => name,
    }),
    dots ? Plot.dot(points, { x: 'x', y: 'y', r: 2.5, fill: COLOUR.paper, stroke: colour }) : null,
  ];
}
