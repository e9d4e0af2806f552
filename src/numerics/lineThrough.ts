/** A straight line, y = intercept + slope·x, and the weighted sum of squares that it leaves. */
export interface Line {
  intercept: number;
  /** NaN where all x are equal: then no line is the best. */
  slope: number;
  sse: number;
}

/**
 * Straight line through points by least squares, about their means: for whoever needs thousands of lines and nothing else of
 * them; `leastSquares` tells the rest.
 *
 * Shape     x[n], y[n]; weights[n] positive, inverse to the error variances
 * Accuracy  10 digits on NIST's Norris; as `leastSquares` elsewhere (tests/numerics/lineThrough.test.ts)
 * Cost      some 10 operations a point; allocates the answer alone
 *
 * @example
 * lineThrough([1, 2, 3], [2, 4, 6]).slope // 2
 */
export function lineThrough(x: ArrayLike<number>, y: ArrayLike<number>, weights?: ArrayLike<number>): Line {
  let [total, sumX, sumY] = [0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    const weight = weights ? weights[i]! : 1;
    total += weight;
    sumX += weight * x[i]!;
    sumY += weight * y[i]!;
  }
  const [meanX, meanY] = [sumX / total, sumY / total];
  let [squares, products] = [0, 0];
  for (let i = 0; i < x.length; i++) {
    const right = (weights ? weights[i]! : 1) * (x[i]! - meanX);
    squares += right * (x[i]! - meanX);
    products += right * (y[i]! - meanY);
  }
  const slope = squares > 0 ? products / squares : Number.NaN;
  let sse = 0;
  for (let i = 0; i < x.length; i++) {
    const rest = y[i]! - meanY - slope * (x[i]! - meanX);
    sse += (weights ? weights[i]! : 1) * rest * rest;
  }
  return { intercept: meanY - slope * meanX, slope, sse };
}
