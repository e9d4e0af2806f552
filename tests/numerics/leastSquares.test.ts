import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { HouseholderQr } from '../../src/numerics/householderQr.ts';
import { leastSquares } from '../../src/numerics/leastSquares.ts';
import { expectDigits } from '../digits.ts';
import nist from '../references/nist/linear.json' with { type: 'json' };

type Set = {
  x: number[] | number[][];
  y: number[];
  certified: Record<'b' | 'se', number[]> & { rsd: number };
};

/** Powers of x for the polynomial sets, 1 and the given regressors for Longley; nothing centred. */
function designOf({ x, certified }: Set): number[][] {
  const p = certified.b.length;
  if (Array.isArray(x[0])) {
    const rows = x as number[][];
    return Array.from({ length: p }, (_, k) => rows.map((row) => (k === 0 ? 1 : row[k - 1]!)));
  }
  return Array.from({ length: p }, (_, k) => (x as number[]).map((value) => value ** k));
}

// Digits asked of the coefficients and of the residual SD (Householder QR in double precision; published codes of
// the kind reach about as many). Wampler 1 and 2 have no residual at all: their SD is compared with 0 further down.
const ASKED: Record<string, { b: number; se: number }> = {
  Norris: { b: 12.5, se: 12 },
  Pontius: { b: 12.5, se: 12 },
  Longley: { b: 12, se: 11 },
  Filip: { b: 7.4, se: 7 },
  Wampler1: { b: 9.2, se: 0 },
  Wampler2: { b: 12.5, se: 0 },
  Wampler3: { b: 9, se: 10 },
  Wampler4: { b: 7.6, se: 10 },
  Wampler5: { b: 5.5, se: 10 },
};

describe('linear least squares on the NIST StRD sets', () => {
  test('the table of demands covers every set', () => {
    expect(Object.keys(ASKED).sort()).toEqual(Object.keys(nist.sets).sort());
  });

  test.each(Object.keys(ASKED))('%s', (name) => {
    const set = nist.sets[name as keyof typeof nist.sets] as Set;
    const fit = leastSquares(designOf(set), set.y);
    expect(fit.status).toBe('ok');
    const seen = expectDigits(fit.coefficients, set.certified.b, { atLeast: ASKED[name]!.b, what: 'b' });
    if (set.certified.rsd > 0) {
      expectDigits(fit.standardErrors, set.certified.se, { atLeast: ASKED[name]!.se, what: 'se' });
      expectDigits(fit.residualSd, set.certified.rsd, { atLeast: ASKED[name]!.se, what: 'residual SD' });
    } else {
      const scale = Math.max(...set.y);
      expect(fit.residualSd / scale).toBeLessThan(1e-12);
    }
    if (process.env.SHOW_DIGITS) console.log(name, seen.toFixed(1));
  });
});

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
