import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { Random } from '../../src/numerics/random.ts';
import {
  BENCH,
  ERROR_SOURCES,
  type ErrorModel,
  HANDHELD,
  NO_ERROR,
} from '../../src/physiology/errorModel.ts';
import { estimateReadings } from '../../src/physiology/estimate.ts';
import { heartRatesOf } from '../../src/physiology/heartRate.ts';
import { densityOf } from '../../src/physiology/kernel/compiledSummary.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { censoredInterval, censoredQuantile, quantileError } from '../../src/physiology/sampleSummary.ts';
import { type MethodSampling, Sampler, sampleThresholds } from '../../src/physiology/samplingError.ts';
import reference from '../references/step-tests/monte_carlo.json' with { type: 'json' };
import { stepTest, TEN_PRE } from './stepTests.ts';

const readings = usableReadings(TEN_PRE);
const byId = (methods: MethodSampling[], id: string) => methods.find((m) => m.method === id)!;

/** Answers of one method, sorted: what the reference summarises. */
const answered = (x: Float64Array) => x.filter((value) => !Number.isNaN(value)).sort();
const quantile = (sorted: Float64Array, p: number) => sorted[Math.ceil(p * sorted.length) - 1]!;

describe('by a million draws of numpy: test 10_pre', () => {
  const draws = 50_000;
  const cases: [keyof typeof reference & ('sd0.1' | 'sd0.2' | 'cv5%'), Partial<ErrorModel>][] = [
    ['sd0.1', { repeatability: 0.1 }],
    ['sd0.2', { repeatability: 0.2 }],
    ['cv5%', { repeatabilityShare: 0.05 }],
  ];
  const targets = [
    { key: 'cubic4', method: 'fixed-4.0', options: { curve: 'cubic' } },
    { key: 'dmaxMeasured', method: 'dmax', options: { ends: 'measured' } },
    { key: 'raw4', method: 'fixed-4.0', options: { curve: 'raw' } },
  ] as const;

  describe.each(cases)('%s', (name, terms) => {
    test.each(targets)('$key', ({ key, method, options }) => {
      const expected = reference[name][key];
      const error = { ...NO_ERROR, ...terms };
      const result = sampleThresholds(readings, { methods: [method], options, error, draws, seed: 20 });
      const sorted = answered(result.joint.methods.get(method)!.x);
      const summary = byId(result.methods, method);
      // Four standard errors of the difference of two Monte Carlo results; the reference has reference.draws.
      const both = 4 * Math.sqrt(1 / sorted.length + 1 / reference.draws);
      const near = (got: number, want: number, unitError: number) =>
        expect(Math.abs(got - want), `${got} for ${want}`).toBeLessThan(both * unitError);
      const { sd } = expected;
      near(summary.mean!, expected.mean, sd);
      near(summary.sd!, sd, sdError(sorted, sd));
      for (const [p, want] of [
        [0.025, expected.low],
        [0.975, expected.high],
      ] as const) {
        near(quantile(sorted, p), want, quantileUnitError(sorted, p));
      }
      const share = expected.withoutAnswer;
      expect(Math.abs(summary.refusedShare - share)).toBeLessThan(
        both * Math.sqrt(share * (1 - share)) + 1e-12,
      );
    });
  });

  /** Standard error of a standard deviation for one draw, from the fourth moment: not every spread is normal. */
  function sdError(sorted: Float64Array, sd: number): number {
    const mean = sorted.reduce((a, b) => a + b, 0) / sorted.length;
    const fourth = sorted.reduce((a, b) => a + (b - mean) ** 4, 0) / sorted.length;
    return Math.sqrt(fourth - sd ** 4) / (2 * sd);
  }

  /** Standard error of a quantile for one draw: √(p(1−p)) over the density there. */
  function quantileUnitError(sorted: Float64Array, p: number): number {
    const reach = 0.2 * Math.min(p, 1 - p);
    const density = (2 * reach) / (quantile(sorted, p + reach) - quantile(sorted, p - reach));
    return Math.sqrt(p * (1 - p)) / density;
  }

  test('the interval counts the draws beyond the range: 0.15 % of them', () => {
    const error = { ...NO_ERROR, repeatability: 0.2 };
    const { methods } = sampleThresholds(readings, {
      methods: ['fixed-4.0'],
      options: { curve: 'cubic' },
      error,
      draws,
      seed: 21,
    });
    const fixed = byId(methods, 'fixed-4.0');
    expect(fixed.refusedByCode).toEqual({ E_NOT_REACHED: fixed.refusedShare });
    expect(fixed.interval95!.low.value).toBeCloseTo(reference['sd0.2'].cubic4.low, 0);
    expect(fixed.interval95!.high.value!).toBeGreaterThan(reference['sd0.2'].cubic4.high - 0.1);
    expect(fixed.interval95!.high.value!).toBeLessThan(reference['sd0.2'].cubic4.high + 0.2);
  });

  test('the check can fail: another repeatability is seen', () => {
    const error = { ...NO_ERROR, repeatability: 0.205 };
    const { methods } = sampleThresholds(readings, {
      methods: ['fixed-4.0'],
      options: { curve: 'cubic' },
      error,
      draws,
      seed: 22,
    });
    const { sd } = reference['sd0.2'].cubic4;
    expect(Math.abs(byId(methods, 'fixed-4.0').sd! - sd)).toBeGreaterThan((4 * sd) / Math.sqrt(2 * draws));
  });
});

describe('each term of the error model', () => {
  const draws = 20_000;
  const spread = (terms: Partial<ErrorModel>, id = 'fixed-4.0') => {
    const options = { curve: 'raw' as const, ends: 'measured' as const };
    const error = { ...NO_ERROR, ...terms };
    return sampleThresholds(readings, { methods: [id], options, error, draws, seed: 30 }).methods[0]!;
  };
  // On straight lines between 325 W (2.60) and 350 W (4.69) first order is nearly exact.
  const slope = (4.69 - 2.6) / 25;
  const within = (got: number, want: number) =>
    expect(Math.abs(got / want - 1)).toBeLessThan(4 / Math.sqrt(2 * draws) + 0.01);

  test('no error: no spread, and the estimate itself', () => {
    const { methods } = sampleThresholds(readings, { error: NO_ERROR, draws: 20, seed: 1 });
    for (const m of methods) {
      if (m.estimate.refused) continue;
      expect(m.sd!, m.method).toBeLessThan(1e-9);
      expect(m.median!).toBeCloseTo(m.estimate.intensity, 9);
      expect(m.interval95).toEqual({
        low: { value: m.median, beyond: null },
        high: { value: m.median, beyond: null },
      });
      expect(m.density).toBeNull();
    }
  });

  test('offset shifts every reading alike', () => within(spread({ offset: 0.1 }).sd!, 0.1 / slope));
  test('gain scales every reading alike', () => within(spread({ gain: 0.03 }).sd!, (0.03 * 4) / slope));
  test('the scale of the intensity multiplies the answer', () => {
    within(spread({ intensityScale: 0.02 }).sd!, 0.02 * 341.7464);
    const error = { ...NO_ERROR, intensityScale: 0.02 };
    const same = sampleThresholds(readings, { error, draws: 50, seed: 1, intensityScale: 'device' });
    expect(byId(same.methods, 'fixed-4.0').sd!).toBeLessThan(1e-9);
  });
  test('rounding is rectangular', () => {
    // Both neighbours carry it: a share of 0.67 at 350 W and 0.33 at 325 W.
    const share = (4 - 2.6) / (4.69 - 2.6);
    const sd = (0.1 / Math.sqrt(12)) * Math.hypot(share, 1 - share);
    within(spread({ rounding: 0.1 }).sd!, sd / slope);
  });
  test('delay moves a reading by the drift of its stage', () => {
    const share = (4 - 2.6) / (4.69 - 2.6);
    const drift = [(2.6 - 1.69) / 300, (4.69 - 2.6) / 300];
    within(spread({ delay: 10 }).sd!, (10 * Math.hypot((1 - share) * drift[0]!, share * drift[1]!)) / slope);
  });
  test('intensity jitter enters by the local slope', () => {
    const share = (4 - 2.6) / (4.69 - 2.6);
    const at325 = ((4.69 - 1.69) / 50) * 325 * 0.005;
    const at350 = slope * 350 * 0.005;
    within(spread({ intensityJitter: 0.005 }).sd!, Math.hypot((1 - share) * at325, share * at350) / slope);
  });
  test('contamination only ever raises a reading, so the true threshold is later', () => {
    const one = spread({ contamination: 0.2, contaminationSize: 0.5 });
    expect(one.mean!).toBeGreaterThan(341.7464);
    // The reading below the crossing may be contaminated as well, which moves it later too.
    expect(one.interval95!.low.value!).toBeCloseTo(341.7464, 3);
  });
  test('gain and offset move no Dmax', () => {
    expect(spread({ gain: 0.05, offset: 0.2 }, 'dmax').sd!).toBeLessThan(1e-6);
    expect(spread({ gain: 0.05, offset: 0.2 }, 'dmax-exponential').sd!).toBeLessThan(1e-6);
  });
  test('a sample drawn twice has less noise', () => {
    const { stages } = TEN_PRE;
    const twice = usableReadings({ ...TEN_PRE, stages: [...stages, ...stages] });
    const error = { ...NO_ERROR, repeatability: 0.1 };
    const { methods } = sampleThresholds(twice, {
      methods: ['fixed-4.0'],
      options: { curve: 'raw' },
      error,
      draws,
      seed: 31,
    });
    within(byId(methods, 'fixed-4.0').sd! * Math.SQRT2, spread({ repeatability: 0.1 }).sd!);
  });
  test('rest carries the errors of the meter', () => {
    const rested = usableReadings({ ...TEN_PRE, restLactate: 1 });
    const error = { ...NO_ERROR, repeatability: 0.03 };
    const options = { baseline: 'rest', curve: 'raw' } as const;
    const given = { methods: ['baseline-plus-1.0'], options, error, draws, seed: 32 };
    // Baseline + 1.0 lies between 300 W (1.69) and 325 W (2.60).
    const share = (2 - 1.69) / (2.6 - 1.69);
    const expected = (0.03 * Math.hypot(1, share, 1 - share)) / ((2.6 - 1.69) / 25);
    within(sampleThresholds(rested, given).methods[0]!.sd!, expected);
    expect(rested.restLactate).toBe(1);
  });
  test('every term says where it comes from', () => {
    expect(Object.keys(ERROR_SOURCES).sort()).toEqual(Object.keys(HANDHELD).sort());
    for (const term of Object.keys(HANDHELD) as (keyof ErrorModel)[]) {
      expect(BENCH[term]).toBeLessThanOrEqual(HANDHELD[term]);
    }
  });
});

describe('summary', () => {
  const rates = heartRatesOf(TEN_PRE);
  const result = sampleThresholds(readings, { error: HANDHELD, draws: 4000, seed: 3, heartRates: rates });

  test('the headline is the estimate of the same methods', () => {
    expect(result.methods.map((m) => m.estimate)).toEqual(estimateReadings(readings, { heartRates: rates }));
  });

  test('shares add up, the density holds what answered', () => {
    for (const m of result.methods) {
      const total = Object.values(m.refusedByCode).reduce((a, b) => a + b, 0);
      expect(total).toBeCloseTo(m.refusedShare, 12);
      const held = m.density
        ? m.density.y.reduce((a, b) => a + b, 0) * (m.density.x[1]! - m.density.x[0]!)
        : m.stages!.reduce((sum, s) => sum + s.share, 0);
      expect(held / (1 - m.refusedShare)).toBeGreaterThan(0.98);
      expect(held / (1 - m.refusedShare)).toBeLessThan(1.0001);
    }
  });

  test('the 80 % interval lies inside the 95 % interval, heart rate follows it', () => {
    for (const m of result.methods) {
      if (!m.interval95) continue;
      const [low95, low80] = [m.interval95.low.value ?? -Infinity, m.interval80!.low.value ?? -Infinity];
      const [high95, high80] = [m.interval95.high.value ?? Infinity, m.interval80!.high.value ?? Infinity];
      expect(low95 <= low80 && low80 <= high80 && high80 <= high95, m.method).toBe(true);
      if (m.heartRate95?.low && m.heartRate95.high) {
        expect(m.heartRate95.low).toBeLessThanOrEqual(m.heartRate95.high);
      }
    }
  });

  test('slices give the draws of one run, and the same seed the same result', () => {
    const sampler = new Sampler(readings, { error: HANDHELD, seed: 3, heartRates: rates });
    for (const part of [1, 999, 2000, 1000]) sampler.run(part);
    expect(sampler.count).toBe(4000);
    expect(sampler.summary()).toEqual(result);
  });

  test('a larger term keeps the same draws: answers move, they do not jump', () => {
    const at = (repeatability: number) => {
      const error = { ...HANDHELD, repeatability };
      return byId(sampleThresholds(readings, { error, draws: 500, seed: 4 }).methods, 'fixed-4.0').mean!;
    };
    expect(Math.abs(at(0.15) - at(0.1501))).toBeLessThan(0.01);
  });

  test('an end in the tested range that the draws leave is said to lie beyond', () => {
    const near = usableReadings(stepTest([100, 150, 200, 250, 300], [1, 1.1, 1.4, 2.2, 4.1]));
    const { methods } = sampleThresholds(near, {
      error: { ...NO_ERROR, repeatability: 0.08 },
      draws: 2000,
      seed: 5,
    });
    const fixed = byId(methods, 'fixed-4.0');
    expect(fixed.refusedShare).toBeGreaterThan(0.05);
    expect(fixed.status).toBe('caution');
    expect(fixed.interval95!.high).toEqual({ value: null, beyond: 'above' });
    expect(fixed.interval95!.low.beyond).toBeNull();
  });

  test('status falls with the share refused', () => {
    const near = usableReadings(stepTest([100, 150, 200, 250, 300], [1, 1.1, 1.4, 2.2, 4.1]));
    const statusAt = (repeatability: number, y: number) => {
      const changed = { ...near, y: Float64Array.from([1, 1.1, 1.4, 2.2, y]) };
      const error = { ...NO_ERROR, repeatability };
      const { methods } = sampleThresholds(changed, { methods: ['fixed-4.0'], error, draws: 2000, seed: 6 });
      return [methods[0]!.status, methods[0]!.interval95 === null];
    };
    expect(statusAt(0.02, 4.1)).toEqual(['shown', false]);
    expect(statusAt(0.2, 4.1)).toEqual(['not-determined', true]);
    expect(statusAt(0.1, 3.9)).toEqual(['not-shown', true]);
    // A headline that is refused is no result, whatever the draws say.
    expect(statusAt(0.5, 3.999)[0]).toBe('not-determined');
  });

  test('shifts: an offset of 0.1 mmol/L on straight lines is 0.1 over the slope', () => {
    const { methods } = sampleThresholds(readings, { error: NO_ERROR, draws: 2, seed: 1 });
    const { shifts } = byId(methods, 'fixed-4.0');
    expect(shifts.offset).toBeCloseTo(-0.1 / ((4.69 - 2.6) / 25), 9);
    expect(shifts.perReading.slice(0, 6)).toEqual([0, 0, 0, 0, 0, 0]);
    expect(shifts.perReading.slice(6).every((s) => s! < 0)).toBe(true);
    expect(shifts.leaveOut[0]).toBe(0);
    // Without the last stage 4 mmol/L is never reached; without the one before, the line runs from 300 W.
    expect(shifts.leaveOut[7]).toBeNull();
    expect(300 + (50 * (4 - 1.69)) / (4.69 - 1.69) - 341.7464).toBeCloseTo(shifts.leaveOut[6]!, 3);
    expect(byId(methods, 'dmax').shifts.offset).toBeCloseTo(0, 6);
    expect(byId(methods, 'dmax').shifts.gain).toBeCloseTo(0, 6);
  });
});

describe('coverage', () => {
  // Two thousand tests of four hundred draws: long on a busy machine.
  test('the 95 % interval holds the true threshold in 93 to 97 % of repeated tests', {
    timeout: 60_000,
  }, () => {
    // True lactates on a cubic, so that the curve is right and only the readings err: 4 mmol/L at 285 W.
    const x = [120, 150, 180, 210, 240, 270, 300, 330];
    const [truth, slope] = [285, 1.2];
    const trueLactate = (w: number) => {
      const u = (w - 120) / (truth - 120);
      return 1 + (3 - slope) * u ** 3 + slope * u * (u + 1) * 0.5;
    };
    const error = { ...NO_ERROR, repeatability: 0.12 };
    const random = new Random(40);
    const repeats = 2000;
    let covered = 0;
    for (let k = 0; k < repeats; k++) {
      const y = x.map((w) => trueLactate(w) + error.repeatability * random.normal());
      const near = usableReadings(stepTest(x, y));
      const given = {
        methods: ['fixed-4.0'],
        options: { curve: 'cubic' as const },
        error,
        draws: 400,
        seed: k,
      };
      const { low, high } = sampleThresholds(near, given).methods[0]!.interval95!;
      if (low.value! <= truth && truth <= high.value!) covered++;
    }
    expect(covered / repeats).toBeGreaterThan(0.93);
    expect(covered / repeats).toBeLessThan(0.97);
  });
});

describe('edges', () => {
  test('no draws: the estimates, and nothing that draws would tell', () => {
    const { methods } = sampleThresholds(readings, { error: HANDHELD, draws: 0, seed: 1 });
    for (const m of methods) {
      expect([m.mean, m.sd, m.median, m.interval95, m.interval80, m.density, m.standardError]).toEqual(
        new Array(7).fill(null),
      );
      expect(m.estimate.refused).toBeUndefined();
    }
  });

  test.each([
    [{ draws: -1 }, /number of draws/],
    [{ draws: 1.5 }, /number of draws/],
    [{ draws: Number.NaN }, /number of draws/],
    [{ seed: 0.5 }, /seed/],
    [{ error: { ...HANDHELD, gain: -0.1 } }, /gain must be a number of 0 or more, got -0.1/],
    [{ error: { ...HANDHELD, contamination: 2 } }, /contamination must be a number from 0 to 1/],
    [{ error: { ...HANDHELD, delay: Number.NaN } }, /delay/],
    [{ methods: ['nonsense'] }, /no method 'nonsense'/],
  ])('refused with one sentence: case %#', (wrong, message) => {
    const run = () => sampleThresholds(readings, { error: HANDHELD, draws: 5, seed: 1, ...wrong });
    expect(run).toThrow(InputError);
    expect(run).toThrow(message);
  });

  test('one reading gives refusals, not faults', () => {
    const single = usableReadings(stepTest([200], [2]));
    const { methods } = sampleThresholds(single, { error: HANDHELD, draws: 5, seed: 1 });
    expect(methods.map((m) => m.refusedByCode)).toEqual(methods.map(() => ({ E_POINTS: 1 })));
    expect(methods.map((m) => m.status)).toEqual(methods.map(() => 'not-shown'));
  });
});

describe('order statistics with censored ends', () => {
  const draws = { answers: Float64Array.from({ length: 90 }, (_, i) => 90 - i), below: 5, above: 5 };

  test('rank ⌈p·B⌉ counts what lies beyond', () => {
    expect(censoredQuantile(draws, 0.5)).toEqual({ value: 45, beyond: null });
    expect(censoredQuantile(draws, 0.05)).toEqual({ value: null, beyond: 'below' });
    expect(censoredQuantile(draws, 0.06)).toEqual({ value: 1, beyond: null });
    expect(censoredInterval(draws, 0.95)).toEqual({
      low: { value: null, beyond: 'below' },
      high: { value: null, beyond: 'above' },
    });
  });

  test('standard error of the median of n uniform draws: 1/(2√n)', () => {
    const n = 2000;
    const uniform = {
      answers: Float64Array.from({ length: n }, (_, i) => (i + 0.5) / n),
      below: 0,
      above: 0,
    };
    expect(quantileError(uniform, 0.5)!).toBeCloseTo(1 / (2 * Math.sqrt(n)), 3);
  });

  test('a density of a narrow and a wide group keeps both', () => {
    const group = (centre: number, width: number) =>
      Array.from({ length: 300 }, (_, i) => centre + width * ((i + 0.5) / 300 - 0.5));
    const sorted = Float64Array.from([...group(280, 6), ...group(320, 6)]).sort();
    const { x, y } = densityOf(sorted, 20, 1)!;
    const at = (value: number) => y[x.findIndex((v) => v >= value)]!;
    expect(at(300)).toBeLessThan(0.2 * at(280));
    expect(at(300)).toBeLessThan(0.2 * at(320));
  });
});
