import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { moments } from '../../src/numerics/moments.ts';
import { Random } from '../../src/numerics/random.ts';
import { bootstrapCheck } from '../../src/physiology/bootstrapCheck.ts';
import { type ErrorModel, HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { SimulatedReadings } from '../../src/physiology/simulatedReadings.ts';
import reference from '../references/step-tests/monte_carlo.json' with { type: 'json' };
import { stepTest, TEN_PRE } from './stepTests.ts';

const readings = usableReadings(TEN_PRE);
const draws = 40_000;

describe('simulated readings', () => {
  /** Readings at the last stage but one of many simulated tests. */
  const simulate = (terms: Partial<ErrorModel>, given = readings) => {
    const simulated = new SimulatedReadings(given, { ...NO_ERROR, ...terms }, new Random(9));
    return Float64Array.from({ length: draws }, () => {
      simulated.next();
      return simulated.readings.y[6]!;
    });
  };
  const truth = 2.6;
  const within = (got: number, want: number) =>
    expect(Math.abs(got / want - 1), `${got} for ${want}`).toBeLessThan(4 / Math.sqrt(2 * draws));

  test('without error they are the truth', () => {
    expect(new Set(simulate({}))).toEqual(new Set([truth]));
  });
  test('gain, offset and repeatability spread them as they say', () => {
    within(moments(simulate({ gain: 0.05 })).sd, 0.05 * truth);
    within(moments(simulate({ offset: 0.1 })).sd, 0.1);
    within(moments(simulate({ repeatability: 0.15, repeatabilityShare: 0.04 })).sd, Math.hypot(0.15, 0.104));
  });
  test('contamination raises the mean by its chance times its size', () => {
    const sample = simulate({ contamination: 0.1, contaminationSize: 2 });
    // Mean of squares of an exponential is twice its mean squared.
    const sd = Math.sqrt(0.1 * 2 * 2 ** 2 - (0.1 * 2) ** 2);
    expect(Math.abs(moments(sample).mean - truth - 0.2)).toBeLessThan((4 * sd) / Math.sqrt(draws));
    expect(Math.min(...sample)).toBe(truth);
  });
  test('the display shows whole steps', () => {
    for (const y of simulate({ repeatability: 0.2, rounding: 0.1 }).subarray(0, 500)) {
      expect(10 * y).toBeCloseTo(Math.round(10 * y), 9);
    }
  });
  test('two samples at a stage have less noise', () => {
    const { stages } = TEN_PRE;
    const twice = usableReadings({ ...TEN_PRE, stages: [...stages, ...stages] });
    within(moments(simulate({ repeatability: 0.2 }, twice)).sd, 0.2 / Math.SQRT2);
  });
  test('samples at rest and before the test are simulated, the truth is left alone', () => {
    const rested = { ...usableReadings({ ...TEN_PRE, restLactate: 1 }), lactateBefore: 5 };
    const simulated = new SimulatedReadings(rested, HANDHELD, new Random(1));
    simulated.next();
    const { restLactate, lactateBefore } = simulated.readings;
    expect(restLactate).not.toBe(1);
    expect(lactateBefore).not.toBe(5);
    expect([rested.restLactate, rested.lactateBefore, rested.y[6]]).toEqual([1, 5, truth]);
  });
});

describe('parametric bootstrap', () => {
  const error = { ...NO_ERROR, repeatability: 0.1 };
  const given = { methods: ['fixed-4.0'], options: { curve: 'cubic' as const }, error, seed: 4, draws };

  test('around the cubic it is what numpy draws around the readings: a least-squares fit only sees the errors', () => {
    const { curve, checks } = bootstrapCheck(readings, { ...given, curve: 'cubic' });
    const [check] = checks;
    const { sd, low, high } = reference['sd0.1'].cubic4;
    const unit = 4 * Math.sqrt(1 / draws + 1 / reference.draws);
    expect(curve).toBe('cubic');
    // 4 mmol/L on the cubic by R's lm (tests/references/step-tests).
    expect(check!.onCurve!).toBeCloseTo(342.9644446416, 6);
    expect(Math.abs(check!.sd! - sd)).toBeLessThan(unit * sd);
    // √(p(1 − p)) over the normal density at 2.5 % is 2.67 standard deviations for one draw.
    expect(Math.abs(check!.percentile95!.low - low)).toBeLessThan(2.67 * unit * sd);
    expect(Math.abs(check!.percentile95!.high - high)).toBeLessThan(2.67 * unit * sd);
    expect(check!.disagrees).toBe(false);
    // A normal distribution has its shortest interval between the same quantiles, and none is shorter.
    const { percentile95, shortest95 } = check!;
    const [whole, least] = [percentile95!.high - percentile95!.low, shortest95!.high - shortest95!.low];
    expect(least).toBeLessThanOrEqual(whole);
    expect(least).toBeGreaterThan(0.96 * whole);
    expect(Math.abs(check!.ratio! - 1)).toBeLessThan(0.03);
  });

  test('there is no shortest interval where some tests have no answer', () => {
    const [check] = bootstrapCheck(readings, {
      ...given,
      error: { ...error, repeatability: 1 },
      curve: 'cubic',
    }).checks;
    expect(check!.refusedShare).toBeGreaterThan(0);
    expect(check!.shortest95).toBeNull();
  });

  test('BCa ends lie near the percentile ends, on the side that the bias says', () => {
    // Without the last reading 4 mmol/L is out of range, so nothing can be left out there; 2 mmol/L stays within.
    const two = bootstrapCheck(readings, { ...given, methods: ['fixed-2.0'], curve: 'cubic' }).checks[0]!;
    expect(two.bca95).not.toBeNull();
    expect(Math.abs(two.bca95!.low - two.percentile95!.low)).toBeLessThan(two.sd!);
    expect(two.bca95!.low).not.toBe(two.percentile95!.low);
    const four = bootstrapCheck(readings, { ...given, curve: 'cubic' }).checks[0]!;
    expect(four.bca95).toBeNull();
  });

  test('it says where it differs by more than a fifth from the draws around the readings', () => {
    const all = bootstrapCheck(readings, { error: HANDHELD, seed: 4, draws: 2000 });
    for (const { ratio, disagrees, method } of all.checks) {
      if (ratio === null) continue;
      expect(disagrees, method).toBe(ratio > 1.2 || ratio < 1 / 1.2);
    }
    expect(all.checks.some(({ disagrees }) => disagrees)).toBe(true);
    expect(all.checks.some(({ disagrees, ratio }) => ratio !== null && !disagrees)).toBe(true);
  });

  test('it chooses the exponential, whose squares R leaves at an eighth of those of the cubic', () => {
    expect(bootstrapCheck(readings, { ...given, error: HANDHELD, draws: 10 }).curve).toBe('exponential');
  });

  test('stages have no BCa interval, and too few stages no curve', () => {
    const few = usableReadings(stepTest([100, 150], [1, 2]));
    const stages = bootstrapCheck(readings, { ...given, methods: ['first-rise'], draws: 200 });
    expect(stages.checks[0]!.bca95).toBeNull();
    expect(() => bootstrapCheck(few, { ...given, draws: 10 })).toThrow(InputError);
  });
});
