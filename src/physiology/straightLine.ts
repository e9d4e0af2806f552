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
  const n = x.length;
  const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / n;
  const [meanX, meanY] = [mean(x), mean(y)];
  const sxx = x.reduce((sum, value) => sum + (value - meanX) ** 2, 0);
  if (!(sxx > 0)) return null;
  const slope = x.reduce((sum, value, i) => sum + (value - meanX) * (y[i]! - meanY), 0) / sxx;
  const at = (value: number) => meanY + slope * (value - meanX);
  const squares = x.reduce((sum, value, i) => sum + (y[i]! - at(value)) ** 2, 0);
  return { at, residualSd: n > 2 ? Math.sqrt(squares / (n - 2)) : Number.NaN };
}
