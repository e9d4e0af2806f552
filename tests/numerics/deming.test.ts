import { describe, expect, test } from 'vitest';
import { demingLine } from '../../src/numerics/deming.ts';
import { expectDigits } from '../digits.ts';
// Closed form and jackknife by numpy, orthogonal distance regression by scipy (reliability.py); the ratio 0.25 is the case
// that NIST Dataplot prints as slope 1.001194, intercept −0.08974 (its ratio is the inverse; from memory).
import { deming } from '../references/training/reliability.json' with { type: 'json' };

const CASES = [
  [0.25, deming['delta_vary_over_varx=0.25']],
  [1, deming['delta_vary_over_varx=1.0']],
  [4, deming['delta_vary_over_varx=4.0']],
] as const;

describe.each(CASES)('error variances in the ratio %d', (ratio, expected) => {
  const line = demingLine(deming.x, deming.y, { ratio });

  test('slope and intercept as numpy and scipy have them', () => {
    expectDigits([line.slope, line.intercept], [expected.slope, expected.intercept], { atLeast: 10 });
    expectDigits(line.slope, expected.odr_slope, { atLeast: 4 });
  });

  test('jackknife errors as numpy has them', () => {
    expectDigits(
      [line.slopeError, line.interceptError],
      [expected.jackknife_se_slope, expected.jackknife_se_intercept],
      { atLeast: 10 },
    );
  });

  test('swapping the sides turns the line around', () => {
    const swapped = demingLine(deming.y, deming.x, { ratio: 1 / ratio });
    expect(1 / swapped.slope).toBeCloseTo(line.slope, 10);
  });
});

test('the printed answer of NIST Dataplot', () => {
  const { slope, intercept } = demingLine(deming.x, deming.y, { ratio: 0.25 });
  expect(slope).toBeCloseTo(1.001194, 6);
  expect(intercept).toBeCloseTo(-0.08974, 4);
});

test('too few or unequal pairs are refused', () => {
  expect(() => demingLine([1], [2])).toThrow(/at least 2 pairs/);
  expect(() => demingLine([1, 2], [2])).toThrow(/got 2 and 1 values/);
});
