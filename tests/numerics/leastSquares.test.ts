import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { HouseholderQr } from '../../src/numerics/householderQr.ts';
import { leastSquares } from '../../src/numerics/leastSquares.ts';
import { expectDigits } from '../digits.ts';

// NIST's sets: nist.test.ts.

describe('linear least squares', () => {
  const x = [1, 2, 3, 4, 5];
  const y = [2.4, 3.9, 6.2, 7.8, 10.1];
  const ones = x.map(() => 1);

  test('a weight of 2 equals a point given twice', () => {
    const weighted = leastSquares([ones, x], y, { weights: [1, 2, 1, 1, 1] });
    const repeated = leastSquares(
      [
        [...ones, 1],
        [...x, 2],
      ],
      [...y, 3.9],
    );
    // The intercept, 0.2, is a difference of numbers of size 10: one or two digits go there.
    expectDigits(weighted.coefficients, repeated.coefficients, { atLeast: 13 });
    expectDigits(weighted.sse, repeated.sse, { atLeast: 13 });
  });

  test('the projection gives the same coefficients as solving', () => {
    const weights = [1, 2, 1, 3, 1];
    const qr = new HouseholderQr([ones, x], weights);
    const projected = qr.projection().map((row) => row.reduce((sum, r, i) => sum + r * y[i]!, 0));
    expectDigits(projected, leastSquares([ones, x], y, { weights }).coefficients, { atLeast: 13 });
  });

  test('residuals are readings less fit and add up to the sum of squares', () => {
    const fit = leastSquares([ones, x], y);
    expectDigits(
      fit.residuals.reduce((sum, e) => sum + e * e, 0),
      fit.sse,
      { atLeast: 13 },
    );
  });

  test('dependent columns are called singular', () => {
    expect(leastSquares([ones, x, x.map((v) => 2 * v - 1)], y).status).toBe('singular');
    expect(leastSquares([ones, x.map(() => 0)], y).status).toBe('singular');
  });

  test('as many points as coefficients leave no standard error', () => {
    const fit = leastSquares(
      [
        [1, 1],
        [0, 1],
      ],
      [1, 2],
    );
    expectDigits(fit.coefficients, [1, 1], { atLeast: 14 });
    expect(fit.residualSd).toBeNaN();
    expect([...fit.standardErrors]).toEqual([NaN, NaN]);
  });

  test('units far from 1 cost no digits', () => {
    const fit = leastSquares([ones.map(() => 1e-200), x.map((v) => v * 1e150)], y);
    const plain = leastSquares([ones, x], y);
    expectDigits(fit.coefficients[0]! * 1e-200, plain.coefficients[0]!, { atLeast: 13 });
    expectDigits(fit.coefficients[1]! * 1e150, plain.coefficients[1]!, { atLeast: 13 });
  });

  test.each([
    ['no column', () => leastSquares([], y), 'at least one column'],
    ['unequal columns', () => leastSquares([ones, [1, 2]], y), 'Column 2'],
    ['too few points', () => leastSquares([[1], [2]], [1]), 'at least as many points'],
    ['readings missing', () => leastSquares([ones, x], [1, 2]), 'Expected 5 readings'],
    ['weights missing', () => leastSquares([ones, x], y, { weights: [1] }), 'Expected 5 weights'],
    ['a negative weight', () => leastSquares([ones, x], y, { weights: [1, 1, -1, 1, 1] }), 'Weight 3 is -1'],
    ['a weight that is no number', () => leastSquares([ones], y, { weights: [1, 1, 1, 1, NaN] }), 'Weight 5'],
  ])('%s is an input error', (_, attempt, message) => {
    expect(attempt).toThrow(InputError);
    expect(attempt).toThrow(message);
  });
});
