import { lineThrough } from '../numerics/lineThrough.ts';

/** A straight line through points by least squares. */
interface StraightLine {
  at(x: number): number;
  /** √(sum of squared residuals/(n − 2)); NaN for fewer than three points. */
  residualSd: number;
}

/**
 * Least-squares line of y on x; null for fewer than two different x.
 *
 * @example
 * straightLine([1, 2, 3], [2, 4, 6]).at(5) // 10
 */
export function straightLine(x: readonly number[], y: readonly number[]): StraightLine | null {
  const { intercept, slope, sse } = lineThrough(x, y);
  if (Number.isNaN(slope)) return null;
  const freedom = x.length - 2;
  return {
    at: (value) => intercept + slope * value,
    residualSd: freedom > 0 ? Math.sqrt(sse / freedom) : Number.NaN,
  };
}
