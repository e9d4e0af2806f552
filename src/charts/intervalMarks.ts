import type * as PlotModule from '@observablehq/plot';
import type { Claim } from '../physiology/methods/method.ts';
import { COLOUR, claimColour, claimSymbol } from './house.ts';

interface IntervalRow {
  claim: Claim;
  intensity: number;
  interval: readonly [number, number] | null;
  /** Pixels from the top. */
  y: number;
}

/** A bar over the 95 % interval and the estimate upon it; an arrowhead where a limit lies beyond the tested range. */
export function intervalMarks(
  Plot: typeof PlotModule,
  rows: readonly IntervalRow[],
  [low, high]: readonly [number, number],
): PlotModule.Markish[] {
  const bars = rows
    .filter((row) => row.interval !== null)
    .map((row) => ({ ...row, from: Math.max(low, row.interval![0]), to: Math.min(high, row.interval![1]) }));
  const open = bars.flatMap((bar) => [
    ...(bar.interval![0] < low ? [{ x: low, y: bar.y, text: '◂', claim: bar.claim }] : []),
    ...(bar.interval![1] > high ? [{ x: high, y: bar.y, text: '▸', claim: bar.claim }] : []),
  ]);
  return [
    Plot.ruleY(bars, {
      x1: 'from',
      x2: 'to',
      y: 'y',
      stroke: (row: { claim: Claim }) => claimColour(row.claim),
      strokeWidth: 4,
      strokeOpacity: 0.45,
      strokeLinecap: 'round',
    }),
    Plot.text(open, {
      x: 'x',
      y: 'y',
      text: 'text',
      fill: (row: { claim: Claim }) => claimColour(row.claim),
      fontSize: 14,
    }),
    Plot.dot(rows, {
      x: 'intensity',
      y: 'y',
      r: 4.5,
      symbol: (row: { claim: Claim }) => claimSymbol(row.claim),
      fill: (row: { claim: Claim }) => claimColour(row.claim),
      stroke: COLOUR.paper,
      strokeWidth: 1,
    }),
  ];
}
