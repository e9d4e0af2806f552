import type * as PlotModule from '@observablehq/plot';
import { formatPace } from '../base/format.ts';
import type { Axis } from '../base/units.ts';
import { minutesFor } from '../base/units.ts';
import { isNarrow, roundTicks } from './house.ts';

/** The tested range with a little air at both ends, so that end points are not cut. */
export function intensityDomain(lo: number, hi: number): [number, number] {
  const air = (hi - lo) * 0.03;
  return [lo - air, hi + air];
}

/** Label of an intensity axis, with the unit; a speed axis carries pace under each tick. */
const intensityLabel = (axis: Axis): string =>
  axis === 'power' ? 'Power, W' : 'Speed, km/h, and pace, min/km';

/** Ticks and text of the intensity axis at the foot of a chart. */
export function intensityAxis(
  Plot: typeof PlotModule,
  axis: Axis,
  [low, high]: [number, number],
  width: number,
): PlotModule.Markish {
  const ticks = roundTicks(low, high, isNarrow(width) ? 5 : 9);
  const text = (value: number) =>
    axis === 'power' ? String(value) : `${value}\n${formatPace(minutesFor(value, 1000))}`;
  return Plot.axisX(ticks, {
    tickFormat: text,
    tickSize: 4,
    label: intensityLabel(axis),
    labelAnchor: 'center',
    labelArrow: 'none',
    anchor: 'bottom',
  });
}

/** Pixels the intensity axis needs at the foot. */
export const intensityFoot = (axis: Axis): number => (axis === 'power' ? 44 : 58);
