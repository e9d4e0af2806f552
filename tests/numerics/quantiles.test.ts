import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { orderStatistics, quantiles } from '../../src/numerics/quantiles.ts';
import { Random } from '../../src/numerics/random.ts';

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

describe('order statistics', () => {
  test('every rank of a sample with ties, in any order of asking', () => {
    const sample = Array.from({ length: 101 }, (_, i) => (i * 37) % 50);
    const sorted = sample.toSorted((a, b) => a - b);
    const ranks = Array.from({ length: 101 }, (_, i) => ((i * 13) % 101) + 1);
    expect(orderStatistics(Float64Array.from(sample), ranks)).toEqual(ranks.map((rank) => sorted[rank - 1]));
  });

  const { Infinity: inf } = { Infinity: Number.POSITIVE_INFINITY };
  const random = new Random(7);
  test.each<[string, (i: number) => number]>([
    ['normal', () => random.normal()],
    ['far outliers', (i) => (i === 500 ? 1e300 : random.normal())],
    ['few values', () => Math.floor(4 * random.uniform())],
    ['one value', () => 250],
    ['values next to each other', (i) => 250 + (i % 3) * 2 ** -45],
    ['the least there are', (i) => (i % 5) * Number.MIN_VALUE],
    ['beyond on both sides', (i) => (i % 7 === 0 ? inf : i % 11 === 0 ? -inf : random.normal())],
    ['ascending', (i) => i],
    ['descending', (i) => -i],
  ])('are those of the sorted sample: %s', (_, make) => {
    for (const count of [1, 2, 255, 256, 257, 1000, 5000]) {
      const sample = Float64Array.from({ length: count }, (_, i) => make(i));
      const sorted = sample.slice().sort();
      const ranks = [1, 0.025 * count, 0.25 * count, 0.5 * count, 0.5 * count, 0.975 * count, count].map(
        (rank) => Math.max(1, Math.round(rank)),
      );
      expect(orderStatistics(sample, ranks)).toEqual(ranks.map((rank) => sorted[rank - 1]));
      expect(sample.sort(), 'none is lost').toEqual(sorted);
    }
  });

  test('asked for nothing, they leave the sample alone', () => {
    const sample = Float64Array.from([3, 1, 2]);
    expect(orderStatistics(sample, [])).toEqual([]);
    expect([...sample]).toEqual([3, 1, 2]);
  });
});
