import type { Axes, Construction, Mark, Place } from '../physiology/construction.ts';
import { roundTicks } from './house.ts';
import { intensityDomain } from './intensityScale.ts';

/** The ranges of both axes and the ticks of the vertical one. */
export interface Scaling {
  x: [number, number];
  y: [number, number];
  ticks: number[];
  /** False where a place has no logarithm, whatever the construction asks for. */
  logarithmic: boolean;
}

const NAMES: Record<Axes['y'], string> = {
  lactate: 'Lactate, mmol/L',
  equivalent: 'Lactate divided by intensity',
  rise: 'Rise of lactate from minute 10 to 30, mmol/L',
};

/** What stands along the upright axis of a method's picture: the quantity in full words with its unit. */
export const yAxisLabel = (axes: Axes): string => NAMES[axes.y];

/** Places that have to be in sight: lines that a method extends may leave the picture. */
function placesOf(mark: Mark): Place[] {
  switch (mark.kind) {
    case 'readings':
    case 'curve':
      return mark.x.map((x, i) => [x, mark.y[i]!]);
    case 'point':
      return [mark.at];
    case 'line':
      return mark.role === 'tangent' || mark.role === 'bisector' ? [] : [mark.from, mark.to];
    default:
      return [];
  }
}

/** Smallest and greatest value; a single one gets room on both sides. */
function rangeOf(values: readonly number[]): [number, number] {
  const [low, high] = [Math.min(...values), Math.max(...values)];
  return low < high ? [low, high] : [0.95 * low, 1.05 * high || 1];
}

/** Steps of a logarithmic lactate axis, mmol/L: what fits between 1 and 10, and on either side. */
const LOG_STEPS = [0.1, 0.2, 0.5, 1, 2, 3, 5, 10, 20, 50];

/** The scales and axes of a construction, by what it lies on. */
export function constructionScales({ axes, marks }: Construction): Scaling {
  const places = marks.flatMap(placesOf);
  const levels = marks.flatMap((mark) => (mark.kind === 'level' ? [mark.y] : []));
  // A bout that was given up has no rise but has to be in sight; what a rater enters may be far off.
  const uprights = marks.flatMap((mark) => (mark.kind === 'upright' && axes.y === 'rise' ? [mark.x] : []));
  const [left, right] = rangeOf([...places.map(([x]) => x), ...uprights]);
  const [bottom, top] = rangeOf([...places.map(([, y]) => y), ...levels]);
  if (axes.logarithmic && left > 0 && bottom > 0) {
    const y: [number, number] = [bottom / 1.25, top * 1.2];
    const ticks = LOG_STEPS.filter((step) => step >= y[0] && step <= y[1]);
    return { x: [left / 1.03, right * 1.03], y, ticks, logarithmic: true };
  }
  const air = 0.06 * (top - Math.min(0, bottom));
  const y: [number, number] = [bottom < 0 ? bottom - air : 0, top + air];
  return { x: intensityDomain(left, right), y, ticks: roundTicks(...y, 5), logarithmic: false };
}
