import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { type SeparableModel, separableFit } from '../../src/numerics/separableFit.ts';
import { expectDigits } from '../digits.ts';

// NIST's sets: nist.test.ts.

/** One column e^(−s·x) for each shape parameter, after a constant if asked for. */
const decays =
  (constant: boolean) =>
  (x: Float64Array): SeparableModel => ({
    basis: (shape) => [
      ...(constant ? [x.map(() => 1)] : []),
      ...Array.from(shape, (s) => x.map((v) => Math.exp(-s * v))),
    ],
    derivatives: (shape) =>
      Array.from(shape, (_, k) => [
        ...(constant ? [x.map(() => 0)] : []),
        ...Array.from(shape, (s, j) => x.map((v) => (j === k ? -v * Math.exp(-s * v) : 0))),
      ]),
  });

describe('separable least squares', () => {
  const x = Float64Array.from({ length: 9 }, (_, i) => i / 2);

  test('finds the parameters of exact data again', () => {
    for (const rate of [0.05, 0.7, 3]) {
      const y = x.map((v) => 2 + 5 * Math.exp(-rate * v));
      const fit = separableFit(decays(true)(x), y, [1]);
      expect(fit.status).toBe('ok');
      expectDigits([...fit.linear, ...fit.shape], [2, 5, rate], { atLeast: 9 });
    }
  });

  test('a weight of 2 equals a point given twice', () => {
    const y = x.map((v, i) => 2 + 5 * Math.exp(-0.7 * v) + 0.1 * (-1) ** i);
    const weighted = separableFit(decays(true)(x), y, [1], { weights: x.map((_, i) => (i === 3 ? 2 : 1)) });
    const twice = Float64Array.from([...x, x[3]!]);
    const repeated = separableFit(decays(true)(twice), [...y, y[3]!], [1]);
    expectDigits(weighted.shape, repeated.shape, { atLeast: 9 });
    expectDigits(weighted.sse, repeated.sse, { atLeast: 12 });
  });

  test('says when two shape parameters cannot be told apart', () => {
    const y = x.map((v, i) => 5 * Math.exp(-0.7 * v) + 0.1 * (-1) ** i);
    const sum: SeparableModel = {
      basis: ([a, b]) => [x.map((v) => Math.exp(-(a! + b!) * v))],
      derivatives: ([a, b]) => [0, 1].map(() => [x.map((v) => -v * Math.exp(-(a! + b!) * v))]),
    };
    expect(separableFit(sum, y, [0.5, 0.1]).status).toBe('singular');
  });

  test('a start where the model has no value is an input error', () => {
    expect(() => separableFit(decays(false)(x), x, [-1e6])).toThrow(InputError);
  });
});
