import { InputError } from '../base/inputError.ts';
import { HouseholderQr } from './householderQr.ts';

/** What a linear fit found; read nothing else of it before `status` says ok. */
export interface LeastSquaresFit {
  status: 'ok' | 'singular';
  /** One per column of the design, in order. */
  coefficients: Float64Array;
  /** Standard errors of the coefficients; NaN without degrees of freedom. */
  standardErrors: Float64Array;
  /** Reading less fitted value, unweighted. */
  residuals: Float64Array;
  /** Weighted sum of squared residuals. */
  sse: number;
  /** Points less coefficients. */
  degreesOfFreedom: number;
  /** √(sse/degrees of freedom); NaN without degrees of freedom. */
  residualSd: number;
}

/**
 * Linear least squares by Householder QR.
 *
 * Model     y = Σ coefficient[k]·columns[k] + error
 * Shape     columns[p][n], y[n], n >= p; weights[n], inverse to the error variances
 * Assumes   independent errors, equal or in the ratio that the weights say
 * Throws    InputError when lengths differ, there are too few points, or a weight is negative
 * Accuracy  digits on each NIST StRD set in tests/references/nist/digits.md
 * Cost      2np²
 *
 * @example
 * leastSquares([[1, 1, 1], [0, 1, 2]], [1, 3, 5]).coefficients // [1, 2]
 */
export function leastSquares(
  columns: readonly ArrayLike<number>[],
  y: ArrayLike<number>,
  { weights }: { weights?: ArrayLike<number> } = {},
): LeastSquaresFit {
  const qr = new HouseholderQr(columns, weights);
  if (y.length !== qr.rows) throw new InputError(`Expected ${qr.rows} readings, got ${y.length}`);
  const rotated = qr.rotate(y);
  const coefficients = qr.solve(rotated);
  let sse = 0;
  for (let i = qr.columns; i < qr.rows; i++) sse += rotated[i]! ** 2;
  const degreesOfFreedom = qr.rows - qr.columns;
  const residualSd = degreesOfFreedom > 0 ? Math.sqrt(sse / degreesOfFreedom) : NaN;
  return {
    status: qr.singular ? 'singular' : 'ok',
    coefficients,
    standardErrors: qr.unitStandardErrors().map((unit) => unit * residualSd),
    residuals: Float64Array.from(y, (value, i) =>
      columns.reduce((rest, column, k) => rest - coefficients[k]! * column[i]!, value),
    ),
    sse,
    degreesOfFreedom,
    residualSd,
  };
}
