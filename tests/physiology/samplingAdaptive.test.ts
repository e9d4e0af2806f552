import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { adaptiveSampling } from '../../src/physiology/adaptiveSampling.ts';
import { HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { Sampler, sampleThresholds } from '../../src/physiology/samplingError.ts';
import reference from '../references/step-tests/monte_carlo.json' with { type: 'json' };
import { stepTest, TEN_PRE } from './stepTests.ts';

const readings = usableReadings(TEN_PRE);
const cubic4 = { methods: ['fixed-4.0'], options: { curve: 'cubic' } as const };
const sampler = (error = HANDHELD, more = {}) => new Sampler(readings, { error, seed: 11, ...more });

describe('draws until the figures have settled', () => {
  test('to two digits: within the tolerance of a million draws of numpy', () => {
    const error = { ...NO_ERROR, repeatability: 0.1 };
    const one = sampler(error, cubic4);
    const last = [...adaptiveSampling(one, { block: 10_000, digits: 2 })].at(-1)!;
    expect(last).toMatchObject({ state: 'settled', rough: false, unsettled: [], share: 1, draws: one.count });
    // SD 0.98 W: its second digit is 0.01 W, half of which is the tolerance.
    const expected = reference['sd0.1'].cubic4;
    const got = one.summary().methods[0]!;
    for (const [value, want] of [
      [got.mean!, expected.mean],
      [got.sd!, expected.sd],
      [got.interval95!.low.value!, expected.low],
      [got.interval95!.high.value!, expected.high],
    ] as const) {
      // Four standard errors are below two tolerances; the reference's own error is some 0.003 W at the ends.
      expect(Math.abs(value - want)).toBeLessThan(2 * 0.005 + 0.005);
    }
  });

  test('one digit needs far fewer draws than two, and never fewer than two blocks', () => {
    const drawsFor = (digits: 1 | 2) => {
      const one = sampler(HANDHELD, cubic4);
      for (const _ of adaptiveSampling(one, { digits, block: 500 }));
      return one.count;
    };
    const [few, many] = [drawsFor(1), drawsFor(2)];
    expect(few).toBeGreaterThanOrEqual(1000);
    expect(many).toBeGreaterThan(4 * few);
  });

  test('it says what it waits for, stays rough until then, and stops at the limit', () => {
    const one = sampler();
    const told = [...adaptiveSampling(one, { block: 100, most: 250 })];
    expect(told.map(({ draws }) => draws)).toEqual([100, 200, 250]);
    expect(told.map(({ state }) => state)).toEqual(['running', 'running', 'limit']);
    expect(told.every(({ rough, unsettled }) => rough && unsettled.includes('fixed-4.0'))).toBe(true);
    expect(told[0]!.unsettled).not.toContain('first-rise');
    for (const { share } of told) expect(share > 0 && share <= 1).toBe(true);
  });

  test('the draws are those of one run; a cancelled one goes on where it was', () => {
    const one = sampler();
    for (const { draws } of adaptiveSampling(one, { block: 200 })) if (draws >= 400) break;
    for (const { draws } of adaptiveSampling(one, { block: 300 })) if (draws >= 1000) break;
    expect(one.count).toBe(1000);
    expect(one.summary()).toEqual(sampleThresholds(readings, { error: HANDHELD, seed: 11, draws: 1000 }));
  });

  test('a method that most draws refuse is not waited for', () => {
    const near = usableReadings(stepTest([100, 150, 200, 250, 300], [1, 1.1, 1.4, 2.2, 4.05]));
    const error = { ...NO_ERROR, repeatability: 0.2 };
    const one = new Sampler(near, { methods: ['fixed-4.0'], error, seed: 5 });
    const told = [...adaptiveSampling(one, { block: 500 })];
    expect(told.map(({ state }) => state)).toEqual(['running', 'settled']);
  });

  test('without any error two blocks are enough', () => {
    const told = [...adaptiveSampling(sampler(NO_ERROR), { block: 10 })];
    expect(told.map(({ draws, state }) => [draws, state])).toEqual([
      [10, 'running'],
      [20, 'settled'],
    ]);
  });

  test.each([[{ block: 1 }], [{ block: 2.5 }], [{ most: 0 }]])('%o is refused with one sentence', (wrong) => {
    const run = () => [...adaptiveSampling(sampler(), wrong)];
    expect(run).toThrow(InputError);
    expect(run).toThrow(/must be a whole number of draws from 2 on/);
  });
});

test('answers of a stretch of draws are those that the summary is made of', () => {
  const one = sampler(HANDHELD);
  one.run(400);
  const { joint } = one.summary();
  const got = one.answersFrom('fixed-4.0', 100);
  const { x, code } = joint.methods.get('fixed-4.0')!;
  expect(got).toHaveLength(300);
  for (const [i, value] of got.entries()) {
    if (code[100 + i] === 0) expect(value).toBe(x[100 + i]! * joint.scale[100 + i]!);
    else expect(value).toBe(Number.POSITIVE_INFINITY);
  }
  expect(got.some((value) => value === Number.POSITIVE_INFINITY)).toBe(true);
});
