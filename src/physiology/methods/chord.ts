import type { Curve } from '../curves/curve.ts';
import { give, refuse } from './answer.ts';
import type { Answer } from './method.ts';

/**
 * Answer with the point right of `from` where the curve lies farthest below a chord of this slope. Distance across
 * the chord and straight down are greatest at the same point, where the curve is as steep as the chord, so the
 * scales of the axes do not matter.
 */
export function farthestBelowChord(curve: Curve, slope: number, from: number, answer: Answer): void {
  const x = curve.tangentAt(slope, from);
  if (Number.isNaN(x)) refuse(answer, 'E_NOT_CONVEX');
  else give(answer, x, curve.at(x));
}

/** Slope of the line between two points. */
export const slopeBetween = (x1: number, y1: number, x2: number, y2: number): number => (y2 - y1) / (x2 - x1);
