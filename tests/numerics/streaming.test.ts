import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { GridQuantiles } from '../../src/numerics/gridQuantiles.ts';
import { normalQuantile } from '../../src/numerics/normal.ts';
import { quantiles } from '../../src/numerics/quantiles.ts';
import { Random } from '../../src/numerics/random.ts';
import { RunningMoments } from '../../src/numerics/runningMoments.ts';
import { expectDigits } from '../digits.ts';

const random = new Random(3);
const normals = Float64Array.from({ length: 50_000 }, () => 5 + random.normal());
const PROBABILITIES = [0.025, 0.1, 0.5, 0.9, 0.975];

describe('quantiles from counts', () => {
  const grid = { low: -5, high: 15, cells: 4096 };
  const cell = 20 / 4096;

  test('are those of the sample to a cell, however it is cut into blocks', () => {
    const whole = new GridQuantiles(grid).add(normals);
    const blocks = new GridQuantiles(grid);
    for (let i = 0; i < normals.length; i += 777) blocks.add(normals.subarray(i, i + 777));
    const exact = quantiles(normals, PROBABILITIES).values;
    for (const [k, p] of PROBABILITIES.entries()) {
      expect(Math.abs(whole.quantile(p) - exact[k]!)).toBeLessThanOrEqual(cell);
      expect(blocks.quantile(p)).toBe(whole.quantile(p));
    }
  });

  test('of a million normal values are those of the distribution', () => {
    const many = new GridQuantiles(grid);
    for (let k = 0; k < 100; k++) many.add(Float64Array.from({ length: 10_000 }, () => 5 + random.normal()));
    for (const p of PROBABILITIES) {
      const z = normalQuantile(p);
      const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
      const error = Math.sqrt((p * (1 - p)) / 1e6) / density;
      expect(Math.abs(many.quantile(p) - 5 - z)).toBeLessThan(4 * error + cell);
    }
  });

  test('values known only to lie beyond take their rank; NaN takes none', () => {
    const some = new GridQuantiles(grid).add([Number.NEGATIVE_INFINITY, 1, 2, Number.NaN, Infinity]);
    expect(some.count).toBe(4);
    expect(some.quantile(0.25)).toBe(Number.NEGATIVE_INFINITY);
    expect(Math.abs(some.quantile(0.5) - 1)).toBeLessThanOrEqual(cell);
    expect(some.quantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(new GridQuantiles(grid).quantile(0.5)).toBeNaN();
  });

  test('a grid without room is refused', () => {
    expect(() => new GridQuantiles({ low: 1, high: 1, cells: 8 })).toThrow(InputError);
  });
});

describe('moments of blocks', () => {
  // The two-pass formula over all values at once is held to NIST's digits elsewhere (moments.test.ts).
  const mean = normals.reduce((sum, v) => sum + v, 0) / normals.length;
  const sd = Math.sqrt(normals.reduce((sum, v) => sum + (v - mean) ** 2, 0) / (normals.length - 1));

  test('are those of all values at once', () => {
    const running = new RunningMoments();
    for (let i = 0; i < normals.length; i += 777) running.add(normals.subarray(i, i + 777));
    expectDigits([running.mean, running.sd], [mean, sd], { atLeast: 11 });
  });

  test('a far offset costs no digits, values that are not finite are left out', () => {
    const running = new RunningMoments()
      .add([1e9 + 1, Number.NaN])
      .add([1e9 + 2, Infinity])
      .add([1e9 + 3]);
    expect(running).toMatchObject({ count: 3, mean: 1e9 + 2, sd: 1 });
    expect(new RunningMoments().add([4]).sd).toBeNaN();
  });
});
