import { describe, expect, test } from 'vitest';
import { HANDHELD, NO_ERROR } from '../../../src/physiology/errorModel.ts';
import { usableReadings } from '../../../src/physiology/readings.ts';
import { sampleThresholds } from '../../../src/physiology/samplingError.ts';
import type { StepTest } from '../../../src/physiology/stepTest.ts';
import { repeatabilityOf, smallestDetectableChange } from '../../../src/physiology/training/repeatability.ts';
import {
  protocolDifferences,
  retestOf,
  type SameConditions,
} from '../../../src/physiology/training/retest.ts';

const LACTATES = [1.1, 1.0, 1.1, 1.3, 1.7, 2.4, 4.1, 7.4];
const METHODS = ['baseline-plus-0.5', 'fixed-4.0', 'dmax'];

/** A step test whose whole curve is moved by `moved` W. */
const stepTest = (moved: number, { minutes = 4, step = 30 } = {}): StepTest => ({
  sport: 'cycling',
  axis: 'power',
  stages: LACTATES.map((lactate, row) => ({
    row,
    intensity: 120 + moved + step * row,
    lactate,
    heartRate: null,
    rpe: null,
    minutes,
  })),
  restLactate: null,
  stageMinutes: minutes,
  bodyMass: 70,
  notes: [],
});

function tested(name: string, stepped: StepTest, { error = HANDHELD, seed = 1 } = {}) {
  const readings = usableReadings(stepped, { toExhaustion: true });
  return {
    name,
    readings,
    sampling: sampleThresholds(readings, { methods: METHODS, error, seed, draws: 1500 }),
  };
}
const alike: SameConditions = { meter: true, site: true, machine: true, state: true };
const before = tested('before', stepTest(0), { seed: 7 });

describe('published repeatability', () => {
  test.each([
    ['baseline-plus-0.5', 'cycling', 0.037],
    ['baseline-plus-0.5', 'running', 0.031],
    ['dmax', 'cycling', 0.103],
    ['dmax-exponential', 'cycling', 0.103],
    ['minimum-equivalent-plus-1.5', 'cycling', 0.037],
    ['turn-point-2', 'cycling', 0.081],
    ['modified-dmax', 'cycling', 0.081],
    ['fixed-4.0', 'running', 0.037],
    ['fixed-4.0', 'cycling', 0.081],
    ['steady-state-bouts', 'cycling', 0.03],
  ] as const)('%s, %s', (method, sport, variation) => {
    const found = repeatabilityOf(method, sport);
    expect(found.variation).toBe(variation);
    expect(found.source).toMatch(/abstract/);
  });

  test('3.5 % is a smallest detectable change of 9.7 % (1.96·√2, Hopkins 2000)', () => {
    expect(smallestDetectableChange(100, 0.035)).toBeCloseTo(9.7, 1);
  });

  test('what runners needed in another study (Grant 2002, abstract: 1.62 km/h) is of the size of the largest used here', () => {
    const kmh = smallestDetectableChange(12, 0.037);
    expect(kmh).toBeGreaterThan(1);
    expect(kmh).toBeLessThan(1.62);
  });
});

describe('the shift of each method', () => {
  test('moving the whole curve by 40 W moves every method by 40 W', () => {
    const after = tested('after', stepTest(40), { error: NO_ERROR });
    const exact = tested('before', stepTest(0), { error: NO_ERROR });
    const { shifts } = retestOf(exact, after, alike);
    expect(shifts.map((one) => one.method)).toEqual(METHODS);
    for (const { shift, low, high } of shifts) {
      expect(shift).toBeCloseTo(40, 4);
      expect(low).toBeCloseTo(40, 4);
      expect(high).toBeCloseTo(40, 4);
    }
  });

  test('the interval is that of two independent errors: √2 of one test', () => {
    const { shifts } = retestOf(before, tested('after', stepTest(0), { seed: 8 }), alike);
    const { low, high, method } = shifts.find((one) => one.method === 'fixed-4.0')!;
    const { sd } = before.sampling.methods.find((one) => one.method === method)!;
    // Half the width over 1.96, against √2·sd; standard error of such a ratio over 1500 draws is about 3 %.
    expect(Math.abs((high - low) / (2 * 1.96 * Math.SQRT2 * sd!) - 1)).toBeLessThan(0.12);
  });

  test('10 W is not shown, 60 W is a change for a method that repeats to 3.7 %, and not for one of 10.3 %', () => {
    const of = (moved: number) =>
      Object.fromEntries(
        retestOf(before, tested('after', stepTest(moved), { seed: 8 }), alike).shifts.map((one) => [
          one.method,
          one.verdict,
        ]),
      );
    expect(of(10)).toEqual({ 'baseline-plus-0.5': 'not-shown', 'fixed-4.0': 'not-shown', dmax: 'not-shown' });
    expect(of(60)).toEqual({ 'baseline-plus-0.5': 'changed', 'fixed-4.0': 'not-shown', dmax: 'not-shown' });
  });

  test('one’s own repeatability replaces the published one', () => {
    const after = tested('after', stepTest(30), { seed: 8 });
    const own = { variation: 0.01, source: 'own', short: 'own' };
    expect(retestOf(before, after, alike, own).shifts[1]!.verdict).toBe('changed');
    expect(retestOf(before, after, alike).shifts[1]!.verdict).toBe('not-shown');
  });
});

describe('what cannot be compared', () => {
  test.each([
    ['meter', /Another lactate meter/],
    ['site', /fingertips read higher/],
    ['machine', /scales differ/],
    ['state', /another state/],
  ] as const)('%s', (key, reason) => {
    const { reasons, shifts } = retestOf(before, before, { ...alike, [key]: false });
    expect(reasons[0]).toMatch(reason);
    expect(shifts.every((one) => one.verdict === 'not-comparable')).toBe(true);
  });

  test('what nobody knows is named and does not stop the comparison', () => {
    const found = retestOf(before, before, { ...alike, meter: null });
    expect(found.unknown).toEqual(['the meter']);
    expect(found.reasons).toEqual([]);
  });

  test('stages whose length nobody wrote down are named among it', () => {
    const bare = stepTest(0);
    const unwritten = {
      ...bare,
      stageMinutes: null,
      stages: bare.stages.map((s) => ({ ...s, minutes: null })),
    };
    expect(retestOf(tested('before', unwritten), before, alike).unknown).toEqual([
      'the length of the stages',
    ]);
  });

  test('stages of other length, other steps, another sport', () => {
    const differences = (other: StepTest) => protocolDifferences(before.readings, usableReadings(other));
    expect(differences(stepTest(0, { minutes: 3 }))[0]).toMatch(
      /Stages of 4\u202fmin then and 3\u202fmin now/,
    );
    expect(differences(stepTest(0, { step: 40 }))[0]).toMatch(
      /Steps of mostly 30\u202fW then and 40\u202fW now/,
    );
    const running: StepTest = { ...stepTest(0), sport: 'running', axis: 'speed' };
    expect(differences(running)).toEqual(['One test is cycling in W, the other running in km/h.']);
    expect(differences(stepTest(20))).toEqual([]);
  });

  test('one protocol whose steps grow smaller is one protocol, however far the athlete gets', () => {
    const rows = [125, 175, 225, 250, 275, 300, 325, 350];
    const test = (stages: number): StepTest => ({
      ...stepTest(0, { minutes: 5 }),
      stages: stepTest(0, { minutes: 5 })
        .stages.slice(0, stages)
        .map((stage, i) => ({ ...stage, intensity: rows[i]! })),
    });
    expect(protocolDifferences(usableReadings(test(5)), usableReadings(test(8)))).toEqual([]);
    expect(protocolDifferences(usableReadings(test(8)), usableReadings(test(5)))).toEqual([]);
  });
});
