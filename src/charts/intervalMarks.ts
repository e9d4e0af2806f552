import type * as PlotModule from '@observablehq/plot';
import type { Claim } from '../physiology/methods/method.ts';
import { COLOUR, claimColour, claimSymbol } from './house.ts';
import { type Part, placed, tenths } from './parts.ts';

interface IntervalRow {
  claim: Claim;
  intensity: number;
  interval: readonly [number, number] | null;
  /** Pixels from the top. */
  y: number;
}

/** Values at both edges of a picture, and how many pixels from its left one stands. */
export interface Across {
  low: number;
  high: number;
  at(value: number): number;
}

/** The bars and estimates of rows over a domain as one mark of a picture. */
export const intervalMarks =
  (rows: readonly IntervalRow[], [low, high]: readonly [number, number]): PlotModule.RenderFunction =>
  (_index, { x }, _values, _dimensions, { document }) =>
    placed(document, intervalLayers(rows, { low, high, at: x! }));

/**
 * A bar over the 95 % interval of each row with an arrowhead where a limit lies beyond the tested range, and the estimates
 * upon them.
 */
export const intervalLayers = (rows: readonly IntervalRow[], across: Across): Part[][] => [
  rows.flatMap((row) => (row.interval === null ? [] : bar(row, row.interval, across))),
  rows.map((row) => dot(row, across)),
];

function bar({ claim, y }: IntervalRow, [from, to]: readonly [number, number], across: Across): Part[] {
  const { low, high, at } = across;
  const colour = claimColour(claim);
  const line: Part = {
    kind: 'line',
    look: {
      x1: at(Math.max(low, from)),
      x2: at(Math.min(high, to)),
      y1: y,
      y2: y,
      stroke: colour,
      'stroke-width': 4,
      'stroke-opacity': 0.45,
      'stroke-linecap': 'round',
    },
  };
  const arrow = (text: string, x: number): Part => ({
    kind: 'text',
    text,
    look: { x: at(x), y, dy: '0.32em', 'text-anchor': 'middle', fill: colour, 'font-size': 14 },
  });
  return [line, ...(from < low ? [arrow('◂', low)] : []), ...(to > high ? [arrow('▸', high)] : [])];
}

/** Corners of a polygon that nobody tells from a circle of this radius, px from its middle. */
const roundCorners = (radius: number, count: number): [number, number][] =>
  Array.from({ length: count }, (_, i) => {
    const angle = (2 * Math.PI * i) / count;
    return [radius * Math.cos(angle), radius * Math.sin(angle)];
  });

/** Corners of the shapes of thresholds, px from their middle; both have the same area. */
const SHAPE: Record<ReturnType<typeof claimSymbol>, readonly (readonly [number, number])[]> = {
  circle: roundCorners(4.5, 16),
  diamond: [
    [0, -7.4],
    [4.3, 0],
    [0, 7.4],
    [-4.3, 0],
  ],
};

function dot({ claim, intensity, y }: IntervalRow, { at }: Across): Part {
  const x = at(intensity);
  const corners = SHAPE[claimSymbol(claim)];
  const points = corners.map(([right, down]) => `${tenths(x + right)},${tenths(y + down)}`).join(' ');
  return {
    kind: 'polygon',
    look: { points, fill: claimColour(claim), stroke: COLOUR.paper, 'stroke-width': 1 },
  };
}
