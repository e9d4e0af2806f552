import { expect, test } from 'vitest';
import { minimise } from '../../src/numerics/minimise.ts';
import { expectDigits } from '../digits.ts';

test.each([
  ['a parabola', (x: number) => (x - 2) ** 2 + 1, -3, 9, 2, 1],
  ['a kink, where parabolas do not help', (x: number) => Math.abs(x - 1.25), -3, 9, 1.25, 0],
  // 2x − 1/x² = 0 at (1/2)^(1/3)
  ['x² + 1/x', (x: number) => x * x + 1 / x, 0.01, 50, 0.5 ** (1 / 3), 3 * 0.25 ** (1 / 3)],
  [
    'a steep wall on one side',
    (x: number) => Math.exp(20 * x) - 30 * x,
    -2,
    2,
    Math.log(1.5) / 20,
    1.5 - 1.5 * Math.log(1.5),
  ],
] as const)('%s', (_, f, lo, hi, x, value) => {
  const got = minimise(f, lo, hi);
  // Near a smooth minimum values differ by rounding alone once x is right to half the digits.
  expectDigits(got.x, x, { atLeast: 7 });
  expect(Math.abs(got.value - value)).toBeLessThan(1e-7);
});

test('a minimum on the edge is found there', () => {
  expect(minimise((x) => x, 2, 5).x - 2).toBeLessThan(1e-6);
  expect(5 - minimise((x) => -x, 2, 5).x).toBeLessThan(1e-6);
});

test('parabolas make it quick: no more than 15 evaluations on a smooth curve', () => {
  let calls = 0;
  minimise(
    (x) => {
      calls++;
      return Math.cosh(x - 0.3);
    },
    -2,
    3,
    { tolerance: 1e-6 },
  );
  expect(calls).toBeLessThanOrEqual(15);
});
