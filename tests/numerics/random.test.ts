import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { chiSquareTail } from '../../src/numerics/chiSquare.ts';
import { normalCdf } from '../../src/numerics/normal.ts';
import { Random, SplitMix64 } from '../../src/numerics/random.ts';
import reference from '../references/random/xoshiro128.json' with { type: 'json' };

const DRAWS = 400_000;
const draws = (make: (random: Random) => number, seed = 20261125) => {
  const random = new Random(seed);
  return Float64Array.from({ length: DRAWS }, () => make(random));
};

describe('the generator against the C program', () => {
  test('SplitMix64', () => {
    const mix = new SplitMix64(BigInt(reference.splitmix64.seed));
    expect(reference.splitmix64.outputs.map(() => String(mix.next()))).toEqual(reference.splitmix64.outputs);
  });

  test.each(reference.xoshiro128)('seed $seed, stream $stream', ({ seed, stream, bits, bit1000 }) => {
    const random = new Random(seed, stream);
    expect(bits.map(() => random.bits())).toEqual(bits);
    for (let i = bits.length; i < 1000; i++) random.bits();
    expect(random.bits()).toBe(bit1000);
  });

  test('a uniform is made of the top 27 bits of one output and the top 26 of the next', () => {
    const { seed, stream, bits } = reference.xoshiro128[0]!;
    const expected = Number(((BigInt(bits[0]!) >> 5n) << 26n) + (BigInt(bits[1]!) >> 6n)) / 2 ** 53;
    expect(new Random(seed, stream).uniform()).toBe(expected);
  });
});

describe('seeds and streams', () => {
  test('the same seed gives the same numbers, another seed or stream others', () => {
    const first = (seed: number, stream?: number) => {
      const random = new Random(seed, stream);
      return [random.normal(), random.uniform(), random.normal(), random.exponential()];
    };
    expect(first(7)).toEqual(first(7, 0));
    const all = [first(7), first(8), first(7, 1), first(7, 2), first(-7)].map((values) => values[0]);
    expect(new Set(all).size).toBe(5);
  });

  test.each([1.5, NaN, Number.POSITIVE_INFINITY, 2 ** 60])('%s is no seed', (seed) => {
    expect(() => new Random(seed)).toThrow(InputError);
  });
});

/** Largest distance in standard errors between sample moments and those of the distribution. */
function momentGaps(sample: Float64Array, raw: readonly number[]): number[] {
  return [1, 2, 3, 4].map((k) => {
    const mean = sample.reduce((sum, x) => sum + x ** k, 0) / sample.length;
    // The variance of x^k is E x^2k − (E x^k)².
    return Math.abs(mean - raw[k]!) / Math.sqrt((raw[2 * k]! - raw[k]! ** 2) / sample.length);
  });
}

/** P value that counts in bins of equal probability come from the distribution. */
function chiSquareOf(sample: Float64Array, cdf: (x: number) => number): number {
  const bins = 200;
  const counts = new Uint32Array(bins);
  for (const value of sample) counts[Math.min(bins - 1, Math.floor(bins * cdf(value)))]!++;
  const expected = sample.length / bins;
  return chiSquareTail(
    counts.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0),
    bins - 1,
  );
}

// Raw moments E x^k, k = 0..8: 1/(k + 1); 1, 0, 1, 0, 3, 0, 15, 0, 105; k!
const CASES = [
  ['uniform', (r: Random) => r.uniform(), [1, 2, 3, 4, 5, 6, 7, 8, 9].map((k) => 1 / k), (x: number) => x],
  ['normal', (r: Random) => r.normal(), [1, 0, 1, 0, 3, 0, 15, 0, 105], normalCdf],
  [
    'exponential',
    (r: Random) => r.exponential(),
    [1, 1, 2, 6, 24, 120, 720, 5040, 40320],
    (x: number) => -Math.expm1(-x),
  ],
] as const;

describe.each(CASES)('%s numbers', (_, make, raw, cdf) => {
  const sample = draws(make);

  test('have the moments of the distribution within 4 standard errors', () => {
    for (const gap of momentGaps(sample, raw)) expect(gap).toBeLessThan(4);
  });

  test('fill 200 bins evenly', () => {
    const p = chiSquareOf(sample, cdf);
    expect(p).toBeGreaterThan(0.001);
    expect(p).toBeLessThan(0.999);
  });

  test('do not depend on the one before: pairs fill a 20 by 20 grid evenly', () => {
    const cells = new Uint32Array(400);
    const share = sample.map(cdf);
    for (let i = 0; i + 1 < share.length; i += 2) {
      cells[20 * Math.min(19, Math.floor(20 * share[i]!)) + Math.min(19, Math.floor(20 * share[i + 1]!))]!++;
    }
    const expected = DRAWS / 2 / 400;
    const chi = cells.reduce((sum, count) => sum + (count - expected) ** 2 / expected, 0);
    expect(chiSquareTail(chi, 399)).toBeGreaterThan(0.001);
  });
});

test.each([3, 3.5, 4])('as many normals beyond ±%s as there should be', (z) => {
  const beyond = draws((r) => r.normal()).filter((x) => Math.abs(x) > z).length;
  const expected = DRAWS * 2 * normalCdf(-z);
  expect(Math.abs(beyond - expected)).toBeLessThan(4 * Math.sqrt(expected));
});

test('the checks above can fail: a normal with an SD of 1.01, a uniform that avoids 1 part in 200', () => {
  const wide = draws((r) => 1.01 * r.normal());
  expect(Math.max(...momentGaps(wide, [1, 0, 1, 0, 3, 0, 15, 0, 105]))).toBeGreaterThan(4);
  expect(
    chiSquareOf(
      draws((r) => 0.995 * r.uniform()),
      (x) => x,
    ),
  ).toBeLessThan(1e-6);
});
