import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { histogram } from '../../src/numerics/histogram.ts';
import { quantiles } from '../../src/numerics/quantiles.ts';

const value = fc.oneof(
  fc.double({ min: -5, max: 5, noNaN: true }),
  fc.constantFrom(0, 1, 2, NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY),
);

describe('quantiles by selection', () => {
  test('are the order statistics that sorting gives', () => {
    fc.assert(
      fc.property(
        fc.array(value, { maxLength: 60 }),
        fc.array(fc.double({ min: 0, max: 1, noNaN: true })),
        (sample, ps) => {
          const sorted = Float64Array.from(sample.filter((v) => !Number.isNaN(v))).sort();
          const expected = ps.map((p) =>
            sorted.length === 0
              ? NaN
              : sorted[Math.min(Math.max(Math.ceil(p * sorted.length), 1), sorted.length) - 1]!,
          );
          // +0 and −0 are one value here; sorting tells them apart.
          expect([...quantiles(sample, ps).values].map((v) => v + 0)).toEqual(expected.map((v) => v + 0));
        },
      ),
      { seed: 20261125, numRuns: 500 },
    );
  });

  test('leave NaN out and say how many, and count values beyond the range', () => {
    const { Infinity: inf } = { Infinity: Number.POSITIVE_INFINITY };
    const got = quantiles([1, NaN, inf, -inf, 2, NaN, inf], [0.1, 0.5, 0.9]);
    expect(got).toEqual({ values: Float64Array.of(-inf, 2, inf), count: 5, missing: 2, below: 1, above: 2 });
  });

  test('of nothing are NaN', () => {
    expect(quantiles([NaN], [0.5])).toMatchObject({ values: Float64Array.of(NaN), count: 0, missing: 1 });
  });

  test('leave the sample as it was', () => {
    const sample = Float64Array.of(3, 1, 2);
    quantiles(sample, [0.5]);
    expect([...sample]).toEqual([3, 1, 2]);
  });

  test.each([
    ['ascending', (i: number) => i],
    ['descending', (i: number) => -i],
    ['constant', () => 7],
    ['organ pipe', (i: number) => Math.min(i, 50_000 - i)],
  ])('stay quick on %s values', (_, make) => {
    const sample = Float64Array.from({ length: 50_000 }, (_, i) => make(i));
    const sorted = sample.slice().sort();
    expect(quantiles(sample, [0.975, 0.025]).values).toEqual(Float64Array.of(sorted[48_749]!, sorted[1249]!));
  });
});

describe('histogram', () => {
  test('an inner edge belongs to the right, the last edge to the last bin', () => {
    expect([...histogram([0, 1, 1, 2, 3], { lo: 0, hi: 3, bins: 3 }).counts]).toEqual([1, 2, 2]);
  });

  test('loses nothing', () => {
    fc.assert(
      fc.property(fc.array(value), (sample) => {
        const { counts, below, above, missing } = histogram(sample, { lo: -1, hi: 2, bins: 7 });
        expect(counts.reduce((sum, count) => sum + count, 0) + below + above + missing).toBe(sample.length);
      }),
      { seed: 20261125 },
    );
  });

  test('needs a range and a bin', () => {
    expect(() => histogram([1], { lo: 1, hi: 1, bins: 2 })).toThrow(InputError);
    expect(() => histogram([1], { lo: 0, hi: 1, bins: 0 })).toThrow(InputError);
  });
});
