import { describe, expect, test } from 'vitest';
import { THIN_SPACE } from '../../src/base/format.ts';
import { prepareCurve } from '../../src/physiology/curves/index.ts';
import { type EstimateOptions, estimateAll } from '../../src/physiology/estimate.ts';
import { METHODS, methodById } from '../../src/physiology/methods/index.ts';
import type { Refusal } from '../../src/physiology/refusal.ts';
import type { BaselineRule, StepTest } from '../../src/physiology/stepTest.ts';
import { INVENTED, REAL, type ReferenceTest, stepTest, TEN_PRE } from './stepTests.ts';

/** Answer of one method, W or km/h; null where it refuses. */
function answer(given: StepTest, id: string, options: EstimateOptions = {}): number | null {
  const [estimate] = estimateAll(given, { ...options, methods: [id] });
  return estimate!.refused ? null : estimate!.intensity;
}

/** A refusal with ordinary spaces, to be compared with what one can type. */
const plain = (refused: Refusal | undefined) => ({
  ...refused,
  reason: refused?.reason.replaceAll(THIN_SPACE, ' '),
});

const refusal = (given: StepTest, id: string, options: EstimateOptions = {}) =>
  estimateAll(given, { ...options, methods: [id] })[0]!.refused;

function expectNear(got: number | null, expected: number | null, within: number): void {
  if (expected === null) expect(got).toBeNull();
  else expect(Math.abs((got ?? Number.NaN) - expected), `${got} for ${expected}`).toBeLessThanOrEqual(within);
}

const testOf = ({ intensity, lactate }: ReferenceTest) => stepTest(intensity, lactate);

const LEVELS = ['2.0', '3.0', '3.5', '4.0'] as const;
const RISES = ['0.5', '1.0', '1.5'] as const;

/** thresholds.json states 1e-6 of the intensity for brackets and chords; the issue of this work asks for 1e-3. */
const DIGITS = 1e-3;

describe.each([...REAL, ...INVENTED])('by numpy and scipy: test %s', (_name, expected) => {
  const given = testOf(expected);

  test('fixed lactates on the raw, cubic and exponential curve', () => {
    for (const level of LEVELS) {
      const id = `fixed-${level}`;
      expectNear(answer(given, id), expected.raw[level], DIGITS);
      expectNear(answer(given, id, { curve: 'cubic' }), expected.cubic[level], DIGITS);
      if (expected.exponential) {
        expectNear(answer(given, id, { curve: 'exponential' }), expected.exponential[level], DIGITS);
      }
    }
  });

  test('baseline plus a rise, by three baselines', () => {
    const rules: [BaselineRule, ReferenceTest['cubicFirstPlus']][] = [
      ['lowest', expected.cubicLowestPlus],
      ['first', expected.cubicFirstPlus],
      ['lowest-two', expected.cubicLowestTwoPlus],
    ];
    for (const [baseline, table] of rules) {
      for (const rise of RISES) {
        expectNear(answer(given, `baseline-plus-${rise}`, { baseline, curve: 'cubic' }), table[rise], DIGITS);
      }
    }
  });

  test('Dmax with both chords, on the exponential, and modified', () => {
    expectNear(answer(given, 'dmax'), expected.dmaxFitted, DIGITS);
    expectNear(answer(given, 'dmax', { ends: 'measured' }), expected.dmaxMeasured, DIGITS);
    expectNear(answer(given, 'dmax-exponential'), expected.dmaxExponential, DIGITS);
    expectNear(answer(given, 'modified-dmax'), expected.modifiedDmax, DIGITS);
  });

  test('log–log by global search', () => {
    expectNear(answer(given, 'log-log'), expected.logLog, DIGITS);
  });

  test('minimum equivalent, and what rises from it', () => {
    const { minimumEquivalent, minimumEquivalentStep, intensity } = expected;
    const atEdge = minimumEquivalent === intensity[0] || minimumEquivalent === intensity.at(-1);
    // The reference is the best of 200,001 grid points: half a step is what it cannot tell.
    expectNear(
      answer(given, 'minimum-equivalent'),
      atEdge ? null : minimumEquivalent,
      minimumEquivalentStep / 2,
    );
    if (atEdge) expect(refusal(given, 'minimum-equivalent')?.code).toBe('E_EDGE');
    expectNear(answer(given, 'minimum-equivalent-plus-1.5'), expected.minimumEquivalentPlus, DIGITS);
  });

  test('minimum equivalent on the raw readings is a stage', () => {
    const { minimumEquivalentRaw, intensity } = expected;
    const atEdge = minimumEquivalentRaw === intensity[0];
    expectNear(
      answer(given, 'minimum-equivalent', { curve: 'raw' }),
      atEdge ? null : minimumEquivalentRaw,
      1e-6,
    );
  });

  test('first rise', () => {
    const atFirst = expected.firstRise === expected.intensity[0];
    expect(answer(given, 'first-rise')).toBe(atFirst ? null : expected.firstRise);
    if (atFirst) expect(refusal(given, 'first-rise')?.code).toBe('E_ALREADY_ABOVE');
  });
});

describe('turn points', () => {
  const long = [...REAL, ...INVENTED].filter(([, t]) => t.threeSegmentSse !== undefined);

  test.each(long)(
    '%s: the sum of squares is never worse than that of a 241 × 241 grid',
    (_name, expected) => {
      const given = testOf(expected);
      const x = Float64Array.from(expected.intensity);
      const y = Float64Array.from(expected.lactate);
      const curve = prepareCurve('three-segment', x);
      curve.fit(y);
      const sse = x.reduce((sum, value, i) => sum + (y[i]! - curve.at(value)) ** 2, 0);
      expect(sse).toBeLessThanOrEqual(expected.threeSegmentSse! + 1e-12);
      const [k1, k2] = [answer(given, 'turn-point-1')!, answer(given, 'turn-point-2')!];
      expect(k1).toBeLessThan(k2);
      // The answers are bends of that curve: its slope changes there.
      for (const k of [k1, k2]) expect(curve.slope(k + 1e-6)).toBeGreaterThan(curve.slope(k - 1e-6));
    },
  );
});

describe('by a second program: the invented tests, printed to 0.1 W and 0.001 km/h', () => {
  // Written apart from this one, searching plain grids of that step; lowest reading as the baseline.
  const printed: Record<string, Record<string, number>> = {
    sharp: {
      'baseline-plus-0.5': 257.3,
      'baseline-plus-1.0': 271.7,
      'baseline-plus-1.5': 282.2,
      'fixed-2.0': 276.2,
      'fixed-3.0': 293.7,
      'fixed-3.5': 300.7,
      'fixed-4.0': 306.8,
      'first-rise': 220,
      'log-log': 244.5,
      'turn-point-1': 201.3,
      'turn-point-2': 292.9,
      'minimum-equivalent': 221.7,
      'minimum-equivalent-plus-1.0': 271.1,
      'minimum-equivalent-plus-1.5': 281.7,
      dmax: 258.3,
      'modified-dmax': 284.9,
      'modified-dmax-exponential': 296.5,
      'dmax-exponential': 274.4,
    },
    gentle: {
      'baseline-plus-0.5': 11.834,
      'baseline-plus-1.0': 12.531,
      'baseline-plus-1.5': 12.993,
      'fixed-2.0': 12.296,
      'fixed-3.0': 13.218,
      'fixed-3.5': 13.539,
      'fixed-4.0': 13.815,
      'first-rise': 12,
      'log-log': 11.574,
      'turn-point-1': 11.452,
      'turn-point-2': 13.667,
      'minimum-equivalent': 10.765,
      'minimum-equivalent-plus-1.0': 12.706,
      'minimum-equivalent-plus-1.5': 13.125,
      dmax: 12.375,
      'modified-dmax': 13.588,
      'modified-dmax-exponential': 13.746,
      'dmax-exponential': 12.689,
    },
  };
  const step: Record<string, number> = { sharp: 0.1, gentle: 0.001 };

  test.each(INVENTED)('%s', (name, expected) => {
    const got = estimateAll(testOf(expected), { curve: 'cubic', baseline: 'lowest' });
    for (const [id, value] of Object.entries(printed[name]!)) {
      const e = got.find((candidate) => candidate.method === id)!;
      expectNear(e.refused ? null : e.intensity, value, step[name]!);
    }
  });
});

describe('the figures the work was ordered with: test 10_pre', () => {
  // Printed in the open course text on these data (4 mmol/L on the cubic: 342.96 W on a 0.01 W grid); the rest
  // by R's lm, nls and segmented.
  test.each<[string, number, EstimateOptions]>([
    ['fixed-4.0', 342.9644, { curve: 'cubic' }],
    ['fixed-2.0', 307.1383, { curve: 'cubic' }],
    ['minimum-equivalent', 244.683, { curve: 'cubic' }],
    ['minimum-equivalent-plus-1.5', 314.2717, { curve: 'cubic' }],
    ['baseline-plus-1.0', 303.4798, { curve: 'cubic', baseline: 'lowest' }],
    ['baseline-plus-1.5', 315.4719, { curve: 'cubic', baseline: 'lowest' }],
    ['dmax', 273.0166, { curve: 'cubic' }],
    ['dmax', 273.7474, { curve: 'cubic', ends: 'measured' }],
    ['modified-dmax', 315.2258, { curve: 'cubic' }],
    ['dmax-exponential', 287.6998, { curve: 'cubic' }],
    ['log-log', 263.614, { curve: 'cubic' }],
    ['fixed-4.0', 341.7464, { curve: 'raw' }],
  ])('%s is %d W with %o', (id, watts, options) => {
    expectNear(answer(TEN_PRE, id, options), watts, 1e-3);
  });

  test('the check can fail', () => {
    expect(() => expectNear(answer(TEN_PRE, 'fixed-4.0', { curve: 'cubic' }), 342.9664, 1e-3)).toThrow();
    expect(() => expectNear(null, 342.9644, 1e-3)).toThrow();
    expect(() => expectNear(342.9644, null, 1e-3)).toThrow();
  });
});

describe('exact cases', () => {
  const x = [100, 140, 180, 220, 260, 300, 340];

  test('an exponential without error gives back its own crossings, its Dmax and its slope', () => {
    for (const rate of [0.01, 0.02, 0.04]) {
      const at = (w: number) => 0.8 + 0.02 * Math.exp(rate * (w - 100));
      const given = stepTest(x, x.map(at));
      const where = 100 + Math.log((2 - 0.8) / 0.02) / rate;
      if (where < 340) {
        expectNear(answer(given, 'fixed-2.0', { curve: 'exponential' }), where, 1e-6);
      }
      const growth = rate * 240;
      const dmax = 100 + (240 * Math.log((Math.exp(growth) - 1) / growth)) / growth;
      expectNear(answer(given, 'dmax-exponential'), dmax, 1e-6);
    }
  });

  test('three straight lines give back their bends', () => {
    const at = (w: number) => 1 + 0.01 * Math.max(0, w - 190) + 0.06 * Math.max(0, w - 270);
    const given = stepTest(
      [100, 130, 160, 200, 230, 260, 290, 320, 350],
      [100, 130, 160, 200, 230, 260, 290, 320, 350].map(at),
    );
    expectNear(answer(given, 'turn-point-1'), 190, 1e-6);
    expectNear(answer(given, 'turn-point-2'), 270, 1e-6);
  });

  test('two lines on logarithmic axes give back their bend', () => {
    const at = (w: number) => Math.exp(0.1 * Math.log(w / 100) + 4 * Math.max(0, Math.log(w / 230)));
    expectNear(answer(stepTest(x, x.map(at)), 'log-log'), 230, 1e-6);
  });

  test('a parabola through the least ratio: y = x²/s + s at x = s', () => {
    const given = stepTest(
      x,
      x.map((w) => (w * w) / 200 / 100 + 2),
    );
    expectNear(answer(given, 'minimum-equivalent'), 200, 1e-6);
  });
});

describe('refusals', () => {
  const flat = stepTest([100, 140, 180, 220, 260], [1, 1.1, 1, 1.2, 1.3]);
  const hard = stepTest([100, 140, 180, 220, 260], [4.5, 4.6, 5.4, 7, 10]);

  test('never above the tested range, never below it', () => {
    expect(plain(refusal(flat, 'fixed-4.0'))).toEqual({
      code: 'E_NOT_REACHED',
      reason:
        'Lactate never rises to 4.00 mmol/L: the highest value on the curve is 1.30 mmol/L, so the threshold lies ' +
        'above the tested 260 W.',
    });
    expect(refusal(hard, 'fixed-4.0')?.code).toBe('E_ALREADY_ABOVE');
    expect(refusal(hard, 'fixed-4.0')?.reason).toMatch(/4\.00.mmol\/L at the first stage \(100.W\)/);
  });

  test('a fit that misses a level the last reading reaches says so', () => {
    const given = stepTest([100, 150, 200, 250, 300, 350], [1, 1, 1, 1, 1.2, 4.05]);
    expect(refusal(given, 'fixed-4.0', { curve: 'quadratic' })?.reason).toMatch(/last reading does reach it/);
    expect(refusal(given, 'fixed-4.0')).toBeUndefined();
  });

  test('too few stages, by method', () => {
    const short = stepTest([100, 150, 200, 250], [1, 1.2, 2, 5]);
    expect(refusal(short, 'fixed-4.0')).toBeUndefined();
    expect(refusal(short, 'dmax')).toEqual({
      code: 'E_POINTS',
      reason: 'It needs at least 5 usable stages of different intensity; this test has 4.',
    });
    expect(refusal(short, 'turn-point-2')?.code).toBe('E_POINTS');
    expect(refusal(short, 'fixed-4.0', { curve: 'quartic' })?.code).toBe('E_POINTS');
  });

  test('no rise, and a rise from the first stage', () => {
    expect(refusal(flat, 'first-rise')?.code).toBe('E_NO_RISE');
    expect(refusal(flat, 'modified-dmax')?.code).toBe('E_NO_RISE');
    expect(refusal(stepTest([100, 140, 180, 220], [1, 2, 3, 4]), 'first-rise')?.code).toBe('E_ALREADY_ABOVE');
  });

  test('a rise at the last stage only leaves the modified Dmax no curve', () => {
    expect(refusal(stepTest([100, 140, 180, 220, 260], [1, 1.1, 1, 1.2, 3]), 'modified-dmax')?.code).toBe(
      'E_EDGE',
    );
  });

  test('a rise of exactly 0.4 is none, however it is rounded', () => {
    // 1.9 − 1.5 is below 0.4 and 2.1 − 1.7 above it in binary numbers.
    expect(answer(stepTest([1, 2, 3, 4, 5], [1.5, 1.5, 1.9, 2.4, 4]), 'first-rise')).toBe(3);
    expect(answer(stepTest([1, 2, 3, 4, 5], [1.7, 1.7, 2.1, 2.6, 4]), 'first-rise')).toBe(3);
  });

  test('a curve that only flattens has no Dmax', () => {
    const given = stepTest([100, 140, 180, 220, 260, 300], [1, 3, 4.5, 5.5, 6, 6.2]);
    expect(refusal(given, 'dmax')?.code).toBe('E_NOT_CONVEX');
    expect(refusal(given, 'dmax-exponential')?.code).toMatch(/E_NOT_CONVEX|E_SINGULAR/);
    expect(refusal(given, 'log-log')?.code).toBe('E_NOT_CONVEX');
  });

  test('a test known to be submaximal refuses the methods that need exhaustion, and only those', () => {
    const codes = estimateAll(TEN_PRE, { toExhaustion: false }).map((e) => [
      e.method,
      e.refused?.code ?? null,
    ]);
    expect(codes).toEqual(codes.map(([id]) => [id, methodById(id!).maximal ? 'E_SUBMAX' : null]));
    expect(codes.filter(([, code]) => code).length).toBe(7);
  });

  test('baseline at rest needs a rest sample', () => {
    expect(refusal(TEN_PRE, 'baseline-plus-1.0', { baseline: 'rest' })?.reason).toMatch(/no rest sample/);
    const rested = { ...TEN_PRE, restLactate: 1 };
    expect(answer(rested, 'baseline-plus-1.0', { baseline: 'rest' })).toBeCloseTo(
      answer(rested, 'fixed-2.0')!,
      9,
    );
  });

  test('rest on the curve at intensity 0 rules out logarithms and ratios', () => {
    const rested = { ...TEN_PRE, restLactate: 1 };
    for (const id of ['log-log', 'minimum-equivalent', 'minimum-equivalent-plus-1.5']) {
      expect(refusal(rested, id, { includeRest: true })?.code).toBe('E_PROTOCOL');
    }
  });

  test('an unknown method is named with those there are', () => {
    expect(() => methodById('dmaxx')).toThrow(/no method 'dmaxx'.*dmax/);
  });
});

describe('warnings', () => {
  const warnings = (given: StepTest, id: string, options: EstimateOptions = {}) => {
    const [estimate] = estimateAll(given, { ...options, methods: [id] });
    return estimate!.refused ? [] : estimate!.warnings.join(' ');
  };

  test('a curve that crosses twice says which crossing it gives', () => {
    const given = stepTest([100, 140, 180, 220, 260], [1, 2.4, 1.6, 2.2, 5]);
    expect(warnings(given, 'fixed-2.0')).toMatch(/more than once; the last crossing/);
    expect(answer(given, 'fixed-2.0')).toBeCloseTo(180 + (40 * 0.4) / 0.6, 9);
  });

  test('baseline methods name their baseline', () => {
    expect(warnings(TEN_PRE, 'baseline-plus-0.5', { baseline: 'first' })).toMatch(/first stage/);
  });

  test('a second turn point with one reading beyond it rests on that reading', () => {
    expect(
      warnings(stepTest([100, 140, 180, 220, 260, 300, 340], [1, 1, 1, 1.4, 1.8, 2.2, 8]), 'turn-point-2'),
    ).toMatch(/one reading/);
  });

  test('the modified Dmax names its anchor, and a close call', () => {
    expect(warnings(TEN_PRE, 'modified-dmax')).toMatch(/275.W.*small error/);
    const clear = stepTest([100, 140, 180, 220, 260, 300], [1, 1, 1, 2, 4, 9]);
    expect(warnings(clear, 'modified-dmax')).not.toMatch(/small error/);
  });

  test('Dmax on a test that does not say it was maximal', () => {
    expect(warnings(TEN_PRE, 'dmax')).toMatch(/exhaustion/);
    expect(warnings(TEN_PRE, 'dmax', { toExhaustion: true })).toBe('');
  });
});

describe('registry', () => {
  test('ids are unique, every declaration is complete', () => {
    expect(new Set(METHODS.map((m) => m.id)).size).toBe(METHODS.length);
    for (const m of METHODS) {
      expect(methodById(m.id)).toBe(m);
      for (const text of [m.meaning, m.source, m.bias]) expect(text.length).toBeGreaterThan(20);
    }
  });

  test('heart rate at the crossing, by numpy interpolation', () => {
    for (const [, expected] of REAL) {
      if (expected.heartRateAtCubic4 === undefined) continue;
      const given = stepTest(expected.intensity, expected.lactate, { heartRate: expected.heartRate! });
      const [estimate] = estimateAll(given, { methods: ['fixed-4.0'], curve: 'cubic' });
      expect(estimate!.refused).toBeUndefined();
      if (!estimate!.refused) expect(estimate!.heartRate).toBeCloseTo(expected.heartRateAtCubic4, 4);
    }
  });
});
