import { InputError } from '../base/inputError.ts';
import { moments } from './moments.ts';

/** A straight line, y = intercept + slope · x, through points that are uncertain in both directions. */
export interface DemingLine {
  slope: number;
  intercept: number;
  /** Standard errors by leaving out one pair at a time; NaN below 3 pairs. */
  slopeError: number;
  interceptError: number;
}

/**
 * Straight line through pairs of which both sides carry error.
 *
 * Model     y = intercept + slope·x, with `ratio` the error variance of y over that of x
 * Shape     x[n], y[n], n >= 2
 * Throws    InputError when lengths differ or there are fewer than 2 pairs
 * Accuracy  10 digits on numpy's closed form, 4 on scipy's orthogonal distance regression (tests/numerics/deming.test.ts)
 * Departs   some programs define the ratio the other way round
 * Source    Deming 1943, Statistical Adjustment of Data; jackknife after Linnet 1990, Stat Med 9:1463–1473 (from memory)
 *
 * @example
 * demingLine([1, 2, 3], [3, 5, 7]).slope // 2
 */
export function demingLine(x: ArrayLike<number>, y: ArrayLike<number>, { ratio = 1 } = {}): DemingLine {
  if (x.length !== y.length || x.length < 2) {
    throw new InputError(`Expected at least 2 pairs, got ${x.length} and ${y.length} values`);
  }
  const all = lineOf(Array.from(x), Array.from(y), ratio);
  const n = x.length;
  const pseudo = Array.from(x, (_, left) => {
    const others = (values: ArrayLike<number>) => Array.from(values).filter((_, i) => i !== left);
    const one = lineOf(others(x), others(y), ratio);
    return [n * all.slope - (n - 1) * one.slope, n * all.intercept - (n - 1) * one.intercept] as const;
  });
  const errorOf = (k: 0 | 1) => (n < 3 ? NaN : moments(pseudo.map((values) => values[k])).sd / Math.sqrt(n));
  return { ...all, slopeError: errorOf(0), interceptError: errorOf(1) };
}

function lineOf(x: number[], y: number[], ratio: number): { slope: number; intercept: number } {
  const [meanX, meanY] = [moments(x).mean, moments(y).mean];
  let [xx, yy, xy] = [0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    xx += (x[i]! - meanX) ** 2;
    yy += (y[i]! - meanY) ** 2;
    xy += (x[i]! - meanX) * (y[i]! - meanY);
  }
  const gap = yy - ratio * xx;
  const slope = (gap + Math.sqrt(gap * gap + 4 * ratio * xy * xy)) / (2 * xy);
  return { slope, intercept: meanY - slope * meanX };
}
