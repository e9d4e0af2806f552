import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import { GrowthProfile } from '../../../src/physiology/curves/growthProfile.ts';
import { expectDigits } from '../../digits.ts';

/** Invented readings over z from 0 to 1 that a curve of one growth suits, hardly suits, or does not suit. */
const SHAPES: ((z: number) => number)[] = [
  (z) => 0.9 + 0.02 * Math.exp(5.7 * z),
  (z) => 1 + 3 * z + 0.5 * z * z,
  (z) => 4 - 2 * z,
  (z) => 1 + 5 * Math.exp(20 * (z - 1)),
  (z) => 1.5 - 2 * z + 6 * z ** 4,
  (z) => 1 + Math.sin(7 * z),
  (z) => 2 + Math.sin(12 * z),
  () => 3,
];
const STAGES = {
  'four even stages': [0, 1 / 3, 2 / 3, 1],
  'eight even stages': Array.from({ length: 8 }, (_, i) => i / 7),
  'eight uneven stages': [0, 0.1, 0.15, 0.3, 0.5, 0.62, 0.97, 1],
  'twenty even stages': Array.from({ length: 20 }, (_, i) => i / 19),
};
const GRID = Array.from({ length: 800 }, (_, k) => 0.02 * 1500 ** (k / 799));

/** Weighted sum of squares about the best A + β·(e^(g·z) − 1)/g, by the textbook formula for a straight line. */
function squaresAt(growth: number, z: Float64Array, y: Float64Array, weights: Float64Array): number {
  const phi = z.map((v) => Math.expm1(growth * v) / growth);
  const sum = (of: (i: number) => number) => weights.reduce((total, w, i) => total + w * of(i), 0);
  const total = sum(() => 1);
  const [meanPhi, meanY] = [sum((i) => phi[i]!) / total, sum((i) => y[i]!) / total];
  const spread = sum((i) => (phi[i]! - meanPhi) ** 2);
  const shared = sum((i) => (phi[i]! - meanPhi) * (y[i]! - meanY));
  return sum((i) => (y[i]! - meanY - (shared / spread) * (phi[i]! - meanPhi)) ** 2);
}

describe.each(Object.entries(STAGES))('%s', (_, stages) => {
  const z = Float64Array.from(stages);
  const weights = z.map((_, i) => 1 + (i % 3));
  const random = new Random(20261130);
  const draws = Array.from({ length: 240 }, (_, k) =>
    z.map((v) => SHAPES[k % SHAPES.length]!(v) + 0.03 * (1 + (k % 11)) * random.normal()),
  );

  test('no growth of a fine grid fits better, whatever was fitted before', () => {
    const profile = new GrowthProfile(z, weights);
    for (const y of draws) {
      const found = profile.fit(y);
      const squares = GRID.map((growth) => squaresAt(growth, z, y, weights));
      const least = Math.min(...squares);
      expect(squaresAt(profile.growth, z, y, weights)).toBeLessThanOrEqual(least * (1 + 1e-10));
      const atAnEnd = [GRID[0]!, GRID.at(-1)!].some((end) => Math.abs(profile.growth / end - 1) < 1e-9);
      expect(found).toBe(!atAnEnd);
    }
  });

  test.each([0.5, 1.7, 3.1, 5.9, 11.3])('the growth that made the readings, %s, is found', (growth) => {
    const profile = new GrowthProfile(z, weights);
    expect(profile.fit(z.map((v) => 2 - 0.5 * v - 3 * Math.expm1(-v)))).toBe(false);
    const rise = (7 * growth) / Math.expm1(growth);
    expect(profile.fit(z.map((v) => 1.2 + (rise * Math.expm1(growth * v)) / growth))).toBe(true);
    expectDigits([profile.growth, profile.rise, profile.start], [growth, rise, 1.2], { atLeast: 11 });
  });

  test('the same growth is found after other readings as by a new one', () => {
    const profile = new GrowthProfile(z, weights);
    for (const y of draws) {
      const fresh = new GrowthProfile(z, weights);
      expect(profile.fit(y)).toBe(fresh.fit(y));
      expect(Math.abs(profile.growth / fresh.growth - 1)).toBeLessThan(1e-8);
    }
  });
});
