import { describe, expect, test } from 'vitest';
import { repeatsOf } from '../../src/numerics/repeats.ts';
import { expectDigits } from '../digits.ts';
// By numpy (reliability.py): the example of Hopkins 2000 and the flow meters of Bland & Altman 1986.
import {
  bland_altman_1986 as flow,
  hopkins2000 as hopkins,
} from '../references/training/reliability.json' with { type: 'json' };

test('the example of Hopkins 2000: typical error 2.9', () => {
  const got = repeatsOf(hopkins.trial1, hopkins.trial2);
  expect(got.typicalError.toFixed(1)).toBe('2.9');
  expectDigits(
    [got.bias, got.sd, got.typicalError, 100 * got.variation, got.smallestChange],
    [
      hopkins.mean_diff,
      hopkins.sd_diff,
      hopkins.typical_error,
      hopkins.cv_log_pct,
      hopkins.sdc95_1p96_sqrt2_te,
    ],
    { atLeast: 10 },
  );
  expectDigits([got.limits.low, got.limits.high], hopkins.loa_1p96, { atLeast: 10 });
});

describe('the flow meters of Bland & Altman 1986', () => {
  const first = (meter: number[][]) => meter.map((pair) => pair[0]!);
  const got = repeatsOf(first(flow.mini), first(flow.wright));

  test('bias −2.1, standard deviation 38.8, standard error 9.4 as printed', () => {
    expect(got.bias.toFixed(1)).toBe('-2.1');
    expect(got.sd.toFixed(1)).toBe('38.8');
    expect(got.biasError.toFixed(1)).toBe('9.4');
    expectDigits([got.bias, got.sd, got.biasError], [flow.bias, flow.sd, flow.se_bias], { atLeast: 10 });
    expectDigits([got.limits.low, got.limits.high], flow.loa_1p96, { atLeast: 10 });
  });
});

test('the sign follows second less first, and swapping turns it round', () => {
  const [up, down] = [repeatsOf([1, 2], [2, 4]), repeatsOf([2, 4], [1, 2])];
  expect(up.bias).toBe(1.5);
  expect(down.bias).toBe(-1.5);
  expect(down.typicalError).toBe(up.typicalError);
});

test('one pair says nothing', () => {
  expect(() => repeatsOf([1], [2])).toThrow(/at least 2 pairs/);
});
