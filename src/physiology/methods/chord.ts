import type { Curve } from '../curves/curve.ts';
import { give, refuse } from './answer.ts';
import type { Answer } from './method.ts';

/**
 * Answer with the point to the right of (fromX, fromY) where the curve lies farthest below the chord that runs from there
 * with this slope. Distance across the chord and straight down are greatest at the same point, where the curve is as
 * steep as the chord, so the scales of the axes do not matter. A curve that nowhere dips below the chord has none: its
 * point of that slope would be the one nearest to the chord.
 */
export function farthestBelowChord(
  curve: Curve,
  slope: number,
  fromX: number,
  fromY: number,
  answer: Answer,
): void {
  const x = curve.tangentAt(slope, fromX);
  if (curve.at(x) < fromY + slope * (x - fromX)) give(answer, x, curve.at(x));
  else refuse(answer, 'E_NOT_CONVEX');
}

/** Slope of the line between two points. */
export const slopeBetween = (x1: number, y1: number, x2: number, y2: number): number => (y2 - y1) / (x2 - x1);
