import { describe, expect, test } from 'vitest';
import { bcaInterval } from '../../src/numerics/bcaInterval.ts';
import { symmetricInterval } from '../../src/numerics/coverage.ts';
import { moments } from '../../src/numerics/moments.ts';
import { Random } from '../../src/numerics/random.ts';
import law from '../references/bootstrap/lawSchool.json' with { type: 'json' };

const REPLICATES = 100_000;

function correlation(pairs: readonly number[]): number {
  const [x, y] = [law.lsat, law.gpa].map((column) => pairs.map((i) => column[i]!));
  const [meanX, meanY] = [moments(x!).mean, moments(y!).mean];
  const sum = (a: number[], am: number, b: number[], bm: number) =>
    a.reduce((total, value, i) => total + (value - am) * (b[i]! - bm), 0);
  return sum(x!, meanX, y!, meanY) / Math.sqrt(sum(x!, meanX, x!, meanX) * sum(y!, meanY, y!, meanY));
}

describe("Efron's law-school data: the correlation of 15 pairs", () => {
  const all = law.lsat.map((_, i) => i);
  const estimate = correlation(all);
  const leaveOneOut = all.map((out) => correlation(all.filter((i) => i !== out)));
  const random = new Random(15);
  const replicates = Float64Array.from({ length: REPLICATES }, () =>
    correlation(all.map(() => Math.floor(15 * random.uniform()))),
  );
  const bca = (share: number) => bcaInterval(replicates, { estimate, leaveOneOut, share });

  /** Four standard errors of the difference to the reference of a quantile at p: √(p(1−p)) over the density there. */
  function bound(p: number): number {
    const reach = 0.2 * Math.min(p, 1 - p);
    const at = (q: number) => symmetricInterval(replicates, Math.abs(2 * q - 1))[q < 0.5 ? 'low' : 'high'];
    const unit = (Math.sqrt(p * (1 - p)) * (at(p + reach) - at(p - reach))) / (2 * reach);
    return 4 * unit * Math.sqrt(1 / REPLICATES + 1 / law.provenance.draws);
  }

  test('estimate and acceleration, which nothing random enters', () => {
    expect(estimate).toBeCloseTo(law.correlation, 12);
    expect(bca(0.95).acceleration).toBeCloseTo(law.acceleration, 12);
  });

  test('standard error and percentile interval', () => {
    expect(Math.abs(moments(replicates).sd - law.bootstrapError)).toBeLessThan(0.002);
    const { low, high } = symmetricInterval(replicates, 0.95);
    expect(Math.abs(low - law.percentile95[0]!)).toBeLessThan(bound(0.025));
    expect(Math.abs(high - law.percentile95[1]!)).toBeLessThan(bound(0.975));
  });

  test.each([
    [0.95, law.bca95],
    [0.9, law.bca90],
  ])('BCa interval of %f', (share, ends) => {
    const { low, high, biasCorrection } = bca(share);
    // A share of 0.46 is known to √(0.46·0.54/B); its normal quantile to that over the density there.
    const unit = Math.sqrt(0.25 * (1 / REPLICATES + 1 / law.provenance.draws)) / 0.397;
    expect(Math.abs(biasCorrection - law.biasCorrection)).toBeLessThan(4 * unit);
    // An error of z₀ counts about twice at the ends, on the scale of the spread there.
    const slack = 8 * unit * law.bootstrapError;
    expect(Math.abs(low - ends[0]!)).toBeLessThan(bound((1 - share) / 2) + slack);
    expect(Math.abs(high - ends[1]!)).toBeLessThan(bound((1 + share) / 2) + slack);
  });

  test('the check can fail: BCa and percentile intervals are far apart here', () => {
    const gap = law.percentile95[0]! - bca(0.95).low;
    expect(gap).toBeGreaterThan(10 * bound(0.025));
  });
});

describe('edges', () => {
  const replicates = Float64Array.from({ length: 1000 }, (_, i) => i + 1);

  test('without bias and acceleration it is the percentile interval', () => {
    const got = bcaInterval(replicates, { estimate: 500.5, leaveOneOut: [-1, 0, 1], share: 0.899 });
    expect(got.acceleration).toBe(0);
    expect(got.biasCorrection).toBe(0);
    expect([got.low, got.high]).toEqual([51, 950]);
  });

  test('an estimate that no replicate surrounds, and readings that do not matter, give none', () => {
    const outside = bcaInterval(replicates, { estimate: 2000, leaveOneOut: [1, 2, 4], share: 0.9 });
    const same = bcaInterval(replicates, { estimate: 500, leaveOneOut: [3, 3, 3], share: 0.9 });
    expect([outside.low, outside.high, same.low, same.high]).toEqual([NaN, NaN, NaN, NaN]);
  });
});
