import { expect, test } from 'vitest';
import { bracketedRoot } from '../../src/numerics/bracketedRoot.ts';

// Outside reference: roots known in closed form or printed to 15 digits in tables (Dottie number, ln 2, Wallis's cubic).
test.each<[string, (x: number) => number, number, number, number]>([
  ['x² − 2', (x) => x * x - 2, 0, 2, Math.SQRT2],
  ['falling', (x) => Math.exp(-x) - 0.5, 0, 3, Math.LN2],
  ['cos x = x', (x) => Math.cos(x) - x, 0, 1, 0.739085133215161],
  ["Wallis's cubic x³ − 2x − 5", (x) => x ** 3 - 2 * x - 5, 2, 3, 2.094551481542327],
  ['flat before it rises', (x) => Math.exp(20 * (x - 1)) - 2, 0, 2, 1 + Math.LN2 / 20],
  ['a straight line', (x) => 3 * x - 1, -5, 5, 1 / 3],
])('%s', (_name, f, lo, hi, expected) => {
  expect(Math.abs(bracketedRoot(f, lo, hi) - expected)).toBeLessThan(2e-12 * hi);
  expect(Math.abs(bracketedRoot((x) => -f(x), lo, hi) - expected)).toBeLessThan(2e-12 * hi);
});

test('takes few evaluations on a smooth function', () => {
  let evaluations = 0;
  const counted = (x: number) => {
    evaluations++;
    return x ** 3 - 2 * x - 5;
  };
  bracketedRoot(counted, 2, 3);
  expect(evaluations).toBeLessThan(14);
});

test('an end that is a root is the answer; without a change of sign there is none', () => {
  expect(bracketedRoot((x) => x - 1, 1, 2)).toBe(1);
  expect(bracketedRoot((x) => x - 2, 1, 2)).toBe(2);
  expect(bracketedRoot((x) => x * x + 1, -1, 1)).toBeNaN();
});
