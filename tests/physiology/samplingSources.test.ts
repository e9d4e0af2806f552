import { describe, expect, test } from 'vitest';
import { plausibleCurves } from '../../src/physiology/adequateCurves.ts';
import { HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { estimateReadings } from '../../src/physiology/estimate.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { type SourceShares, sourceShares } from '../../src/physiology/sourceShares.ts';
import type { BaselineRule, CurveId, LastStage } from '../../src/physiology/stepTest.ts';
import { firstOrderShares } from '../../src/physiology/varianceShares.ts';
import { stepTest, TEN_PRE } from './stepTests.ts';

const readings = usableReadings(TEN_PRE);
const raw = { curve: 'raw' } as const;
const oneCurve = { curves: ['raw'] as const, baselines: ['first'] as const };

describe('errors alone', () => {
  const small = { ...NO_ERROR, repeatability: 0.04, gain: 0.01, offset: 0.03, rounding: 0.1, delay: 8 };
  const given = { methods: ['fixed-4.0'], options: raw, error: small, seed: 2, draws: 4000 };

  test('where a method is straight, first order and total shares are those of the law of propagation', () => {
    const [found] = sourceShares(readings, { ...given, ...oneCurve });
    const [straight] = firstOrderShares(readings, given);
    for (const source of ['repeatability', 'gain', 'offset', 'rounding', 'delay'] as const) {
      const expected = straight!.bySource[source];
      const bound = (error: number) => 4 * error + 0.01;
      expect(Math.abs(found!.first[source] - expected), source).toBeLessThan(
        bound(found!.firstError[source]),
      );
      expect(Math.abs(found!.total[source] - expected), source).toBeLessThan(
        bound(found!.totalError[source]),
      );
    }
    // Four standard errors of a standard deviation.
    expect(Math.abs(found!.sd! / straight!.sd - 1)).toBeLessThan(4 / Math.sqrt(2 * given.draws) + 0.01);
    expect(found!.lost).toBe(0);
  });

  test('what is off has no share, nor have choices without an alternative', () => {
    const [found] = sourceShares(readings, { ...given, ...oneCurve });
    for (const input of ['contamination', 'intensityScale', 'curve', 'baseline', 'lastStage'] as const) {
      expect(found!.first[input], input).toBe(0);
      expect(found!.total[input], input).toBe(0);
    }
  });

  test('the parts of one noise are told apart', () => {
    const error = { ...NO_ERROR, repeatability: 0.03, intensityJitter: 0.005 };
    const [found] = sourceShares(readings, { ...given, ...oneCurve, error });
    const [straight] = firstOrderShares(readings, { ...given, error });
    expect(straight!.bySource.intensityJitter).toBeGreaterThan(0.1);
    const gap = found!.total.intensityJitter - straight!.bySource.intensityJitter;
    expect(Math.abs(gap)).toBeLessThan(4 * found!.totalError.intensityJitter + 0.01);
  });
});

describe('choices alone: exact shares by going through all of them', () => {
  const test13 = stepTest(
    [120, 150, 180, 210, 240, 270, 300, 330],
    [1.3, 1.0, 1.1, 1.3, 1.7, 2.3, 3.9, 7.0],
    { minutes: [4, 4, 4, 4, 4, 4, 4, 3], stageMinutes: 4 },
  );
  const treatments = (['credited', 'dropped', 'nominal'] as LastStage[]).map((lastStage) =>
    usableReadings(test13, { lastStage }),
  );
  const curves: CurveId[] = ['raw', 'cubic', 'exponential'];
  const baselines: BaselineRule[] = ['first', 'lowest-two'];
  const answerAt = (method: string, c: number, b: number, t: number) => {
    const options = { curve: curves[c]!, baseline: baselines[b]!, methods: [method] };
    const [estimate] = estimateReadings(treatments[t]!, options);
    if (estimate!.refused) throw new Error(`${method} refuses`);
    return estimate!.intensity;
  };

  /** Shares by the definition: variance of the mean given an input, and mean of the variance given all the others. */
  function exact(method: string) {
    const sizes = { curve: 3, baseline: 2, lastStage: 3 };
    const cells = Array.from({ length: 18 }, (_, i) => ({
      curve: i % 3,
      baseline: Math.floor(i / 3) % 2,
      lastStage: Math.floor(i / 6),
    })).map((at) => ({ ...at, x: answerAt(method, at.curve, at.baseline, at.lastStage) }));
    const mean = (xs: number[]) => xs.reduce((sum, x) => sum + x, 0) / xs.length;
    const variance = (xs: number[]) => mean(xs.map((x) => (x - mean(xs)) ** 2));
    const all = variance(cells.map(({ x }) => x));
    return Object.entries(sizes).map(([name, size]) => {
      const input = name as keyof typeof sizes;
      const given = Array.from({ length: size }, (_, k) => cells.filter((cell) => cell[input] === k));
      const others = cells
        .filter((cell) => cell[input] === 0)
        .map((cell) =>
          cells.filter((one) =>
            Object.keys(sizes).every(
              (key) => key === input || one[key as keyof typeof sizes] === cell[key as keyof typeof sizes],
            ),
          ),
        );
      const first = variance(given.map((part) => mean(part.map(({ x }) => x)))) / all;
      const total = mean(others.map((part) => variance(part.map(({ x }) => x)))) / all;
      return { input, first, total };
    });
  }

  test.each(['baseline-plus-1.0', 'modified-dmax'])('%s', (method) => {
    const [found] = sourceShares(treatments[0]!, {
      methods: [method],
      error: NO_ERROR,
      seed: 4,
      draws: 3000,
      lastStages: treatments.slice(1),
      curves,
      baselines,
    });
    for (const { input, first, total } of exact(method)) {
      expect(Math.abs(found!.first[input] - first), input).toBeLessThan(4 * found!.firstError[input] + 1e-9);
      expect(Math.abs(found!.total[input] - total), input).toBeLessThan(4 * found!.totalError[input] + 1e-9);
    }
  });
});

describe('all at once', () => {
  const rested = usableReadings({ ...TEN_PRE, restLactate: 1.1 });
  const given = { error: HANDHELD, seed: 3, draws: 300 };
  const found = sourceShares(rested, given);
  const of = (method: string) => found.find((one): one is SourceShares => one?.method === method)!;

  test('a choice counts for the methods that it concerns', () => {
    expect(of('baseline-plus-1.0').total.baseline).toBeGreaterThan(0.02);
    expect(of('fixed-4.0').total.baseline).toBe(0);
    expect(of('dmax').total.curve).toBe(0);
    expect(of('minimum-equivalent').total.curve).toBeGreaterThan(0.02);
  });

  test('draws with a refusal are counted, and readings stay as they were', () => {
    expect(found.some((one) => one !== null && one.lost > 0)).toBe(true);
    expect(rested.restLactate).toBe(1.1);
  });

  test('the same seed gives the same shares', () => {
    expect(sourceShares(rested, given)).toEqual(found);
  });
});

test('curves that the readings rule out are not among those to choose from', () => {
  const good = plausibleCurves(readings, HANDHELD);
  expect(good).toContain('exponential');
  const exact = plausibleCurves(readings, { ...NO_ERROR, repeatability: 0.01 });
  expect(exact).toContain('raw');
  expect(exact).not.toContain('quadratic');
  const none = plausibleCurves(readings, NO_ERROR);
  expect(none).toContain('raw');
  expect(none).not.toContain('quadratic');
});
