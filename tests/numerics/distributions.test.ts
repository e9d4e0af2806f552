import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { chiSquareTail } from '../../src/numerics/chiSquare.ts';
import { logGamma, lowerGamma, upperGamma } from '../../src/numerics/gamma.ts';
import { normalCdf, normalQuantile } from '../../src/numerics/normal.ts';
import { expectDigits } from '../digits.ts';
import reference from '../references/scipy/numerics.json' with { type: 'json' };

const pairs = (rows: number[][]) => rows.map(([x, value]) => [x!, value!] as const);

describe('distributions against mpmath', () => {
  test.each(pairs(reference.logGamma))('ln Γ(%s)', (x, value) => {
    expectDigits(logGamma(x), value, { atLeast: 13.5 });
  });

  test.each(pairs(reference.normalCdf))('normal distribution at %s', (z, value) => {
    expectDigits(normalCdf(z), value, { atLeast: 12.5 });
  });

  test.each(pairs(reference.normalQuantile))('normal quantile of %s', (p, value) => {
    expectDigits(normalQuantile(p), value, { atLeast: 14 });
  });

  test.each(reference.chiSquareTail)('chi-square above %s with %s degrees of freedom', (x, df, value) => {
    expectDigits(chiSquareTail(x!, df!), value!, { atLeast: 12.5 });
  });
});

describe('distributions at their edges', () => {
  test('the quantile runs from −∞ to ∞ and has no value outside', () => {
    expect(normalQuantile(0)).toBe(Number.NEGATIVE_INFINITY);
    expect(normalQuantile(1)).toBe(Number.POSITIVE_INFINITY);
    expect(normalQuantile(1.01)).toBeNaN();
    expect(normalQuantile(NaN)).toBeNaN();
  });

  test('the distribution function reaches 0 and 1 and passes NaN on', () => {
    expect(normalCdf(Number.NEGATIVE_INFINITY)).toBe(0);
    expect(normalCdf(Number.POSITIVE_INFINITY)).toBe(1);
    expect(normalCdf(NaN)).toBeNaN();
  });

  test('quantile and distribution function undo each other', () => {
    for (let z = -6; z <= 6; z += 0.25) {
      if (z !== 0) expectDigits(normalQuantile(normalCdf(-Math.abs(z))), -Math.abs(z), { atLeast: 12 });
    }
  });

  test('a chi-square of 0 is always exceeded, an infinite one never', () => {
    expect(chiSquareTail(0, 3)).toBe(1);
    expect(chiSquareTail(Number.POSITIVE_INFINITY, 3)).toBe(0);
  });

  test('the two halves of the incomplete gamma function make 1', () => {
    for (const [a, x] of [
      [0.5, 0.2],
      [3, 2],
      [3, 9],
      [40, 41],
    ] as const) {
      expectDigits(lowerGamma(a, x) + upperGamma(a, x), 1, { atLeast: 14 });
    }
  });

  test('arguments outside the domain are an input error', () => {
    expect(() => upperGamma(0, 1)).toThrow(InputError);
    expect(() => upperGamma(1, -1)).toThrow(InputError);
  });
});
