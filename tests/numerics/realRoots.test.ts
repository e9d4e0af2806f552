import { describe, expect, test } from 'vitest';
import { bracketedNewton } from '../../src/numerics/bracketedNewton.ts';
import { RealRoots } from '../../src/numerics/realRoots.ts';
import { expectDigits } from '../digits.ts';
import reference from '../references/scipy/numerics.json' with { type: 'json' };

const finder = new RealRoots();

/** Roots of the polynomial with these coefficients, lowest power first. */
function realRootsOf(coefficients: number[], lo: number, hi: number): number[] {
  const out = new Float64Array(6);
  const found = finder.find(Float64Array.from(coefficients), coefficients.length - 1, lo, hi, out);
  return [...out.subarray(0, found)];
}

describe('real roots of polynomials', () => {
  const { lo, hi, cases } = reference.roots;

  test('the cases hold every number of roots up to 3', () => {
    expect(new Set(cases.map(({ roots }) => roots.length))).toEqual(new Set([0, 1, 2, 3]));
  });

  test.each(cases)('against mpmath: $coefficients', ({ coefficients, roots }) => {
    const found = realRootsOf(coefficients, lo, hi);
    expect(found).toHaveLength(roots.length);
    if (roots.length > 0) expectDigits(found, roots, { atLeast: 13 });
  });

  test('four roots, one on each end', () => {
    // (x + 1)(x − 0.5)(x − 0.75)(x − 1)
    const found = realRootsOf([-0.375, 1.25, -0.625, -1.25, 1], -1, 1);
    expectDigits(found, [-1, 0.5, 0.75, 1], { atLeast: 13 });
  });

  test('a vanishing highest coefficient lowers the degree', () => {
    expect(realRootsOf([-2, 1, 0, 0, 0], 0, 5)).toEqual([2]);
    expect(realRootsOf([-4, 0, 1, 0], 0, 5)).toEqual([2]);
    expect(realRootsOf([3, 0, 0], 0, 5)).toEqual([]);
  });

  test('a double root of a quadratic is given once', () => {
    expect(realRootsOf([1, -2, 1], 0, 5)).toEqual([1]);
    expect(realRootsOf([0, 0, 1], -1, 1)).toEqual([0]);
  });

  test('nearly equal sizes cost no digits: x² − 10⁸x + 1', () => {
    expectDigits(realRootsOf([1, -1e8, 1], 0, 1e9), [1e-8, 1e8], { atLeast: 15 });
  });

  test('roots outside the interval are left out', () => {
    expect(realRootsOf([-6, 11, -6, 1], 1.5, 2.5)).toEqual([2]);
  });

  test('coefficients beyond the degree do not count', () => {
    const out = new Float64Array(6);
    expect(finder.find(Float64Array.of(-1, 0, 1, 7, 7), 2, -2, 2, out)).toBe(2);
    expect([...out.subarray(0, 2)]).toEqual([-1, 1]);
  });
});

describe('Newton inside a bracket', () => {
  test('finds roots where plain Newton runs away', () => {
    const arctangent = { at: Math.atan, slope: (x: number) => 1 / (1 + x * x) };
    expect(Math.abs(bracketedNewton(arctangent, 0, -10, 1e6))).toBeLessThan(1e-9);
    const flat = { at: (x: number) => x ** 9, slope: (x: number) => 9 * x ** 8 };
    expect(Math.abs(bracketedNewton(flat, 0, -1, 2))).toBeLessThan(1e-12);
  });

  test('stops on the root when rounding would push it over the edge of its bracket', () => {
    let calls = 0;
    const f = {
      at: (x: number) => {
        calls++;
        return (x - 300) * 0.03;
      },
      slope: () => 0.03,
    };
    expectDigits(bracketedNewton(f, 1, 125, 350), 300 + 1 / 0.03, { atLeast: 15 });
    expect(calls).toBeLessThan(8);
  });

  test('an end on the level is the answer, and no change of sign is none', () => {
    const line = { at: (x: number) => x, slope: () => 1 };
    expect(bracketedNewton(line, 1, 1, 4)).toBe(1);
    expect(bracketedNewton(line, 4, 1, 4)).toBe(4);
    expect(bracketedNewton(line, 5, 1, 4)).toBeNaN();
  });

  test('a falling function and a bracket given the wrong way round', () => {
    const falling = { at: (x: number) => 10 - x * x, slope: (x: number) => -2 * x };
    expectDigits(bracketedNewton(falling, 1, 0, 10), 3, { atLeast: 15 });
    expectDigits(bracketedNewton(falling, 1, 10, 0), 3, { atLeast: 15 });
  });
});
