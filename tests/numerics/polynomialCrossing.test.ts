import { describe, expect, test } from 'vitest';
import { polynomialCrossing } from '../../src/numerics/polynomialCrossing.ts';
import { Random } from '../../src/numerics/random.ts';

/**
 * (x − root)·((x − a)² + b) + level, lowest power first: known to take the level at the root and nowhere else. It rises
 * everywhere when b > (a − root)²/3, for then its slope has no root.
 */
function risingThrough(root: number, { a, b, level }: { a: number; b: number; level: number }): Float64Array {
  const constant = a * a + b;
  return Float64Array.of(level - root * constant, constant + 2 * a * root, -2 * a - root, 1, 0);
}

const cases = Array.from({ length: 200 }, (_, seed) => {
  const random = new Random(seed + 1);
  const root = 1.96 * random.uniform() - 0.98;
  const a = 2 * random.uniform() - 1;
  const b = (a - root) ** 2 / 3 + 0.05 + random.uniform();
  return { root, level: 4 * random.uniform(), a, b };
});

describe('crossings that are known because the polynomial was multiplied out of them', () => {
  // The slope there is at least 0.05; rounding of coefficients of the size of 10 moves the root by some 1e-14.
  test.each(cases)('$root, rising and falling', ({ root, level, a, b }) => {
    const rising = risingThrough(root, { a, b, level });
    expect(Math.abs(polynomialCrossing(rising, level, -1, 1) - root)).toBeLessThan(1e-12);
    const falling = rising.map((c) => -c);
    expect(Math.abs(polynomialCrossing(falling, -level, -1, 1) - root)).toBeLessThan(1e-12);
  });

  test('from a turning point on, as on the pieces of a curve', () => {
    // x² turns at 0; a straight line from there would begin far from √level.
    for (const level of [1e-6, 1e-3, 0.2, 0.9]) {
      const found = polynomialCrossing(Float64Array.of(0, 0, 1, 0, 0), level, 0, 1);
      expect(Math.abs(found / Math.sqrt(level) - 1)).toBeLessThan(1e-12);
    }
  });

  test('where the curve hardly rises, as near as numbers tell', () => {
    // (x − 0.3)³: within the cube root of the rounding of its coefficients, some 5e-6, it is 0 as far as numbers tell.
    const cube = Float64Array.of(-0.027, 0.27, -0.9, 1, 0);
    expect(Math.abs(polynomialCrossing(cube, 0, -1, 1) - 0.3)).toBeLessThan(2e-5);
  });
});

test('an end that is on the level is the answer, and a level beyond both ends has none', () => {
  const line = Float64Array.of(0, 1, 0, 0, 0);
  expect(polynomialCrossing(line, -1, -1, 1)).toBe(-1);
  expect(polynomialCrossing(line, 1, -1, 1)).toBe(1);
  expect(polynomialCrossing(line, 1.5, -1, 1)).toBeNaN();
});
