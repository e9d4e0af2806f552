import { describe, expect, test } from 'vitest';
import { leastSquares } from '../../src/numerics/leastSquares.ts';
import { SmoothingSpline } from '../../src/numerics/smoothingSpline.ts';
import { expectDigits } from '../digits.ts';
import reference from '../references/scipy/curves.json' with { type: 'json' };

const z = [0, 0.11, 0.3, 0.42, 0.55, 0.8, 0.93, 1];
const y = [1.1, 0.9, 1.2, 1.1, 1.6, 2.9, 4.1, 7];
const apply = (row: Float64Array) => row.reduce((sum, weight, i) => sum + weight * y[i]!, 0);

describe('smoothing spline', () => {
  const withSpline = Object.entries(reference.shapes);
  test.each(withSpline)('λ for the asked degrees of freedom as scipy has it: %s', (_, { x, count, fits }) => {
    const scaled = x.map((v) => (v - x[0]!) / (x.at(-1)! - x[0]!));
    const { lambda } = new SmoothingSpline(scaled, Math.min(4.5, x.length - 1.5), count);
    expectDigits(lambda, fits.spline.lambda, { atLeast: 9 });
  });

  test('the hat matrix has the asked trace, and rows that add up to 1', () => {
    for (const df of [2.2, 3, 4.5, 6, 7.5]) {
      const { hat } = new SmoothingSpline(z, df);
      expectDigits(
        hat.reduce((sum, row, i) => sum + row[i]!, 0),
        df,
        { atLeast: 11 },
      );
      for (const row of hat)
        expectDigits(
          row.reduce((sum, h) => sum + h, 0),
          1,
          { atLeast: 10 },
        );
    }
  });

  test('a straight line is left alone, second derivatives 0', () => {
    const { hat, bending } = new SmoothingSpline(z, 4);
    const line = z.map((v) => 3 - 2 * v);
    const on = (row: Float64Array) => row.reduce((sum, weight, i) => sum + weight * line[i]!, 0);
    expectDigits(hat.map(on), line, { atLeast: 12 });
    for (const row of bending) expect(Math.abs(on(row))).toBeLessThan(1e-10);
  });

  test('towards 2 degrees of freedom the least-squares line, towards n the readings', () => {
    const { coefficients } = leastSquares([z.map(() => 1), z], y);
    const line = z.map((v) => coefficients[0]! + coefficients[1]! * v);
    const gaps = (df: number, to: number[]) =>
      new SmoothingSpline(z, df).hat.map((row, i) => Math.abs(apply(row) - to[i]!));
    expect(Math.max(...gaps(2.00001, line))).toBeLessThan(1e-4);
    expect(Math.max(...gaps(7.99999, y))).toBeLessThan(1e-4);
    expect(Math.max(...gaps(4, line))).toBeGreaterThan(0.1);
    expect(Math.max(...gaps(4, y))).toBeGreaterThan(0.1);
  });

  test('it is the minimum: no nearby curve has less roughness plus misfit', () => {
    const { hat, bending, lambda } = new SmoothingSpline(z, 4.5);
    const fitted = hat.map(apply);
    const second = bending.map(apply);
    // Roughness of a natural spline: Σ h/3·(γᵢ² + γᵢγᵢ₊₁ + γᵢ₊₁²).
    const roughness = z.slice(1).reduce((sum, right, i) => {
      const [a, b] = [second[i]!, second[i + 1]!];
      return sum + ((right - z[i]!) / 3) * (a * a + a * b + b * b);
    }, 0);
    const misfit = fitted.reduce((sum, s, i) => sum + (y[i]! - s) ** 2, 0);
    // At the minimum the derivative along the fit itself vanishes: Σ(y − s)·s = λ∫s″².
    const along = fitted.reduce((sum, s, i) => sum + (y[i]! - s) * s, 0);
    expectDigits(lambda * roughness, along, { atLeast: 9 });
    expect(misfit).toBeGreaterThan(0);
  });
});
