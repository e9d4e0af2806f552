import { describe, expect, test } from 'vitest';
import { boutReadings } from '../../src/physiology/boutReadings.ts';
import { prepareCurve } from '../../src/physiology/curves/index.ts';
import { NO_ERROR } from '../../src/physiology/errorModel.ts';
import { type EstimateOptions, estimateAll } from '../../src/physiology/estimate.ts';
import { minuteOfReturn, TouchingLine } from '../../src/physiology/methods/individualAnaerobic.ts';
import { ratings } from '../../src/physiology/methods/visual.ts';
import { boutVerdicts, bracketOf } from '../../src/physiology/steadyBouts.ts';
import type { Bout, BoutTest, StepTest, TestData } from '../../src/physiology/stepTest.ts';
import { expectDigits } from '../digits.ts';
import reference from '../references/protocols/protocols.json' with { type: 'json' };
import { INVENTED, stepTest } from './stepTests.ts';

/** Digits that scipy's iterative fits reach; the closed forms on either side reach more. */
const DIGITS = 6;

function answered(given: TestData, id: string, options: EstimateOptions = {}) {
  const [estimate] = estimateAll(given, { ...options, methods: [id] });
  if (estimate!.refused)
    return expect.unreachable(`${id}: ${estimate!.refused.code} ${estimate!.refused.reason}`);
  return estimate!;
}

const answer = (given: TestData, id: string, options?: EstimateOptions): number =>
  answered(given, id, options).intensity;

const running = { sport: 'running', axis: 'speed' } as const;

const withRecovery = ({
  x,
  y,
  stageMinutes,
  minute,
  recovery,
}: (typeof reference.individualAnaerobic)[number]): StepTest => ({
  ...stepTest(x, y, { stageMinutes }),
  recovery: {
    samples: minute.map((m, row) => ({ row, minute: m, lactate: recovery[row]! })),
    mode: 'passive',
  },
});

describe('individual anaerobic threshold', () => {
  test.each(reference.individualAnaerobic)('by the closed forms in scipy: $x', (expected) => {
    const given = withRecovery(expected);
    expectDigits(
      minuteOfReturn({ minute: expected.minute, lactate: expected.recovery }, expected.y.at(-1)!),
      expected.back,
      { atLeast: 12 },
    );
    expectDigits(answer(given, 'individual-anaerobic'), expected.exponential.intensity, { atLeast: DIGITS });
    expectDigits(answer(given, 'individual-anaerobic', { curve: 'cubic' }), expected.cubic.intensity, {
      atLeast: 9,
    });
  });

  test('the worked example: back at 28.500 min, touching at 14.882 min and 2.576 mmol/L', () => {
    // By a second program, bisection and Lambert's function; its exercise curve includes the reading at minute 0.
    const minutes = Float64Array.of(0, 3, 6, 9, 12, 15, 18, 21);
    const curve = prepareCurve('exponential', minutes);
    curve.fit(Float64Array.of(1.2, 1.0, 1.0, 1.2, 1.6, 2.6, 4.6, 8.0));
    const back = 21 + minuteOfReturn({ minute: [1, 3, 5, 7, 10], lactate: [9.2, 9.4, 8.9, 8.2, 7] }, 8);
    expect(back).toBeCloseTo(28.5, 10);
    const t = new TouchingLine().find(curve, back, 8);
    expect(t).toBeCloseTo(14.882, 3);
    expect(curve.at(t)).toBeCloseTo(2.576, 3);
  });

  test('a curve that is its own tangent’s exponential: any place gives back the point it was made from', () => {
    const curve = prepareCurve('exponential', Float64Array.of(0, 4, 8, 12, 16, 20));
    curve.fit(Float64Array.from([0, 4, 8, 12, 16, 20], (t) => 1 + 0.05 * Math.exp(0.25 * t)));
    for (const t of [3, 9, 15, 19]) {
      const slope = 0.05 * 0.25 * Math.exp(0.25 * t);
      const level = 1 + 0.05 * Math.exp(0.25 * t) + slope * (26 - t);
      expect(new TouchingLine().find(curve, 26, level)).toBeCloseTo(t, 8);
    }
  });

  test('uneven pauses of time do not matter, uneven stages are read off the clock', () => {
    const [first] = reference.individualAnaerobic;
    const given = withRecovery(first!);
    const longer = { ...given, stages: given.stages.map((s) => ({ ...s, minutes: 3 })) };
    expect(answer(longer, 'individual-anaerobic')).toBe(answer(given, 'individual-anaerobic'));
  });
});

describe('fixed slope', () => {
  test.each(reference.fixedSlope)('by scipy: slope $slope', ({ x, y, slope, exponential, cubic }) => {
    const given = stepTest(x, y, running);
    expectDigits(answer(given, 'fixed-slope', { slope }), exponential, { atLeast: DIGITS });
    expectDigits(answer(given, 'fixed-slope', { slope, curve: 'cubic' }), cubic, { atLeast: 9 });
  });

  test('the published slope is that of a tangent at 51°34′, and named', () => {
    const { x, y } = reference.fixedSlope[0]!;
    const given = stepTest(x, y, running);
    const keul = Math.tan(((51 + 34 / 60) / 180) * Math.PI);
    expect(
      Math.abs(answer(given, 'fixed-slope') - answer(given, 'fixed-slope', { slope: keul })),
    ).toBeLessThan(1e-3);
    expect(answered(given, 'fixed-slope').warnings.join()).toContain('1.26');
  });
});

describe('bisector of the end tangents', () => {
  test('by angles and brentq in scipy', () => {
    const [expected] = reference.bisector;
    expectDigits(answer(stepTest(expected!.x, expected!.y, running), 'bisector'), expected!.answer, {
      atLeast: DIGITS,
    });
  });

  test('is left out unless asked for', () => {
    const [expected] = reference.bisector;
    const all = estimateAll(stepTest(expected!.x, expected!.y, running)).map((e) => e.method);
    expect(all).not.toContain('bisector');
    expect(all).toContain('fixed-slope');
  });
});

describe('lactate minimum', () => {
  test.each(reference.lactateMinimum)('by numpy: $x', ({ x, y, before, answer: expected, lactate }) => {
    const given: StepTest = { ...stepTest(x, y), protocol: 'lactate-minimum', lactateBefore: before };
    const estimate = answered(given, 'lactate-minimum');
    expectDigits(estimate.intensity, expected, { atLeast: 11 });
    expectDigits(estimate.lactate, lactate, { atLeast: 11 });
    expect(estimate.warnings.join(' ')).toMatch(
      /depends strongly on the intensity of the first stage.*Lowest reading/,
    );
    expect(estimateAll(given).map((e) => e.method)).toEqual(['lactate-minimum']);
  });
});

describe('reverse test', () => {
  test.each(reference.reverse)('by numpy: $x', ({ x, y, answer: expected, lactate }) => {
    const given: StepTest = { ...stepTest(x, y), protocol: 'reverse' };
    const estimate = answered(given, 'reverse');
    expectDigits(estimate.intensity, expected, { atLeast: 10 });
    expectDigits(estimate.lactate, lactate, { atLeast: 10 });
    expect(estimateAll(given).map((e) => e.method)).toEqual(['reverse']);
  });

  test('stages that lead in are not on the curve', () => {
    const { x, y } = reference.reverse[0]!;
    const led: StepTest = { ...stepTest([150, 200, ...x], [1, 9, ...y]), protocol: 'reverse' };
    expect(answer(led, 'reverse')).toBe(answer({ ...stepTest(x, y), protocol: 'reverse' }, 'reverse'));
  });
});

const bouts: Bout[] = Object.entries(reference.bouts).map(([intensity, { minute, samples }]) => ({
  intensity: Number(intensity),
  completed: true,
  samples: minute.map((m, row) => ({ row, minute: m, lactate: samples[row]! })),
}));
const boutTest = (of: Bout[]): BoutTest => ({
  protocol: 'bouts',
  sport: 'cycling',
  axis: 'power',
  bouts: of,
  bodyMass: null,
  notes: [],
});

describe('bouts at constant intensity', () => {
  const error = { ...NO_ERROR, repeatability: 0.15, repeatabilityShare: 0.04, rounding: 0.1 };
  const verdicts = boutVerdicts(boutReadings(boutTest(bouts)), error);

  test('each bout by scipy: rise, regression, chance of steady, mean', () => {
    for (const verdict of verdicts) {
      const expected = reference.bouts[String(verdict.intensity) as keyof typeof reference.bouts];
      expectDigits(verdict.rise!, expected.rise, { atLeast: 11 });
      expectDigits(verdict.regressionRise!, expected.regressionRise, { atLeast: 11 });
      expectDigits(verdict.steadyChance!, expected.steadyChance, { atLeast: 10 });
      expectDigits(verdict.lactate!, expected.lactate, { atLeast: 11 });
    }
  });

  test('the errors of the two rises, of five equal readings: 1.414 and 1.265 standard deviations', () => {
    // Known from regression theory: 20·σ/√Σ(t − t̄)² = 20·σ/√250.
    const minute = [10, 15, 20, 25, 30];
    const at = (lactate: number[]) =>
      boutVerdicts(
        boutReadings(
          boutTest([
            {
              intensity: 200,
              completed: true,
              samples: minute.map((m, row) => ({ row, minute: m, lactate: lactate[row]! })),
            },
          ]),
        ),
        { ...NO_ERROR, repeatability: 1 },
      )[0]!;
    const variance = minute.reduce((sum, _, i) => {
      const moved = at([3, 3, 3, 3, 3].map((v, k) => (k === i ? v + 1 : v))).regressionRise!;
      return sum + moved ** 2;
    }, 0);
    expect(Math.sqrt(variance)).toBeCloseTo(1.2649, 4);
    expect(at([3, 3, 3, 3, 4]).steadyChance).toBeCloseTo(0.5, 12);
  });

  test('the highest steady bout, its bracket and the place between', () => {
    const estimate = answered(boutTest(bouts), 'steady-state-bouts');
    expect(estimate.intensity).toBe(260);
    expectDigits(estimate.lactate, reference.bouts['260'].lactate, { atLeast: 11 });
    // From 0.7 at 260 to 2.0 at 270: 1.0 lies at 260 + 10·0.3/1.3.
    expect(bracketOf(verdicts)).toEqual({
      steady: 260,
      unsteady: 270,
      between: expect.closeTo(260 + 3 / 1.3, 9),
    });
    expect(estimate.warnings.join(' ')).toMatch(/between 260.W and 270.W.*near 262.W/);
  });

  test('a bout that was given up is not steady, whatever its lactate', () => {
    const given = bouts.map((bout) =>
      bout.intensity === 260 ? { ...bout, completed: false, samples: bout.samples.slice(0, 4) } : bout,
    );
    expect(answer(boutTest(given), 'steady-state-bouts')).toBe(240);
    expect(bracketOf(boutVerdicts(boutReadings(boutTest(given)), NO_ERROR))?.between).toBeNull();
  });
});

describe('visual', () => {
  const [, invented] = INVENTED[0]!;
  const given = stepTest(invented.intensity, invented.lactate);

  test('median, range and standard deviation by R: median(), range(), sd() of 240 250 245 262', () => {
    const { median, low, high, sd } = ratings([240, 250, 245, 262]);
    expect([median, low, high]).toEqual([247.5, 240, 262]);
    expect(sd).toBeCloseTo(9.429563, 6);
  });

  test('answers with the median on the straight lines between readings', () => {
    const visual = { LT1: [], LT2: [290, 300, 280] };
    const estimate = answered(given, 'visual-2', { visual });
    expect(estimate.intensity).toBe(290);
    expect(estimate.lactate).toBeCloseTo(1.6 + (30 / 40) * 1.3, 12);
    expect(estimateAll(given, { visual }).map((e) => e.method)).toContain('visual-2');
    expect(estimateAll(given, { visual }).map((e) => e.method)).not.toContain('visual-1');
  });
});

describe('rules of stages', () => {
  test('second rise: the stage before a rise that exceeds the first one', () => {
    // Rises 0.5, 0.2, 0.6: counted by hand.
    expect(answer(stepTest([1, 2, 3, 4, 5], [1, 1.5, 1.7, 2.3, 2.4]), 'second-rise')).toBe(3);
    // 0.7 comes first, so that 0.6 does not count and 0.9 does.
    expect(answer(stepTest([1, 2, 3, 4, 5], [1, 1.7, 2.3, 3.2, 4]), 'second-rise')).toBe(3);
    // Exactly 0.5 in tenths that are none in binary numbers: 1.1 − 0.6 and 1.9 − 1.3.
    expect(answer(stepTest([1, 2, 3, 4, 5], [0.6, 1.1, 1.3, 1.9, 2]), 'second-rise')).toBe(3);
  });

  test('second derivative: the stage at which two straight lines meet', () => {
    const x = [100, 130, 160, 190, 220, 250, 280, 310];
    const y = x.map((w) => 1 + 0.03 * Math.max(0, w - 190));
    expect(answer(stepTest(x, y), 'second-derivative')).toBe(190);
  });

  test('the anchor of the modified Dmax over the baseline, by hand', () => {
    // Over the stage before, 0.5 from 220 to 260 W; over a baseline of 0.8, 1.3 at 220 W already.
    const given = stepTest([100, 140, 180, 220, 260, 300, 340], [0.8, 0.8, 1.1, 1.3, 1.8, 2.9, 7.9]);
    const said = (anchor: 'previous-stage' | 'baseline') =>
      answered(given, 'modified-dmax', { anchor }).warnings.join();
    expect(said('previous-stage')).toMatch(/starts at 220.W, the stage before the first rise\./);
    expect(said('baseline')).toMatch(/starts at 180.W, the stage before the first rise over the baseline/);
    expect(answer(given, 'modified-dmax', { anchor: 'baseline' })).not.toBe(answer(given, 'modified-dmax'));
  });
});

test('the check can fail', () => {
  expect(() => expectDigits(281.3231, 281.3228, { atLeast: DIGITS })).toThrow();
  expect(() => expectDigits(Number.NaN, 281.3228, { atLeast: DIGITS })).toThrow();
});
