import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { baselineLactate } from '../../src/physiology/baseline.ts';
import { heartRateAt, heartRatesOf } from '../../src/physiology/heartRate.ts';
import { incompleteLast, plannedMinutes, usableReadings } from '../../src/physiology/readings.ts';
import type { LastStage } from '../../src/physiology/stepTest.ts';
import { stepTest } from './stepTests.ts';

const x = [100, 150, 200, 250, 300];
const y = [1, 1.1, 1.5, 3, 6];

describe('usable readings', () => {
  test('ascending, whatever the order of the rows; stages without lactate give no point', () => {
    const given = stepTest([200, 100, 300, 250, 150], [1.5, 1, null, 3, 1.1]);
    const readings = usableReadings(given);
    expect([...readings.x]).toEqual([100, 150, 200, 250]);
    expect([...readings.y]).toEqual([1, 1.1, 1.5, 3]);
    expect([...readings.stage]).toEqual([1, 4, 0, 3]);
  });

  test('samples at one intensity are averaged and counted', () => {
    const readings = usableReadings(stepTest([100, 150, 150, 150, 200], [1, 1.2, 1.6, 1.4, 2]));
    expect([...readings.x]).toEqual([100, 150, 200]);
    expect(readings.y[1]).toBeCloseTo(1.4, 12);
    expect([...readings.count]).toEqual([1, 3, 1]);
    expect([...readings.stage]).toEqual([0, 1, 4]);
  });

  test('rest is kept apart, or put at intensity 0 on request', () => {
    const given = stepTest(x, y, { restLactate: 1.3 });
    expect(usableReadings(given).restLactate).toBe(1.3);
    expect([...usableReadings(given).x]).toEqual(x);
    expect([...usableReadings(given, { includeRest: true }).x]).toEqual([0, ...x]);
    expect(usableReadings(given, { includeRest: true }).stage[0]).toBe(-1);
  });

  test('does not change the test it was given', () => {
    const given = stepTest([200, 100, 150], [2, 1, 1.2]);
    const before = structuredClone(given);
    usableReadings(given);
    expect(given).toEqual(before);
  });

  test.each([
    [[Number.NaN, 150], [1, 2], /intensity must be a number of 0 or more, got NaN/],
    [[100, Infinity], [1, 2], /intensity/],
    [[-1, 150], [1, 2], /intensity/],
    [[100, 150], [1, -2], /lactate must be above 0 mmol\/L, got -2/],
    [[100, 150], [0, 2], /lactate/],
    [[100, 150], [null, null], /no stage of this test has a lactate/],
    [[], [], /no stage/],
  ])('%o with %o: one sentence that says what is wrong', (intensity, lactate, message) => {
    const run = () => usableReadings(stepTest(intensity, lactate));
    expect(run).toThrow(InputError);
    expect(run).toThrow(message);
  });

  test('the fault names its row', () => {
    try {
      usableReadings(stepTest([100, 150], [1, Number.NaN]));
      expect.unreachable();
    } catch (error) {
      expect((error as InputError).place).toEqual({ row: 1, field: 'lactate' });
    }
  });
});

describe('a last stage that was not finished', () => {
  const cut = (last: number) => stepTest(x, y, { stageMinutes: 5, minutes: [5, 5, 5, 5, last] });
  const lastOf = (minutes: number, lastStage?: LastStage) => {
    const readings = usableReadings(cut(minutes), lastStage ? { lastStage } : {});
    return [readings.x.at(-1), readings.lastCredited, readings.notes.length];
  };

  test('is credited for the part done, x + Δ·t/T, from half on', () => {
    expect(lastOf(3)).toEqual([280, true, 1]);
    expect(lastOf(2.5)).toEqual([275, true, 1]);
    expect(lastOf(2.4)).toEqual([250, false, 1]);
    expect(lastOf(5)).toEqual([300, false, 0]);
    expect(lastOf(4.99)).toEqual([300, false, 0]);
  });

  test('may be dropped, or kept at its nominal intensity', () => {
    expect(lastOf(3, 'dropped')).toEqual([250, false, 1]);
    expect(lastOf(3, 'nominal')).toEqual([300, false, 0]);
    expect(lastOf(1, 'nominal')).toEqual([300, false, 0]);
  });

  test('is measured against the longest stage when the plan is not stated', () => {
    const given = stepTest(x, y, { minutes: [4, 4, 4, 4, 3] });
    expect(plannedMinutes(given)).toBe(4);
    expect(incompleteLast(given)).toEqual({ index: 4, share: 0.75, credited: 287.5 });
    expect(plannedMinutes(stepTest(x, y))).toBeNull();
    expect(incompleteLast(stepTest(x, y))).toBeNull();
  });

  test('only counts as the last when it is the hardest', () => {
    const falling = stepTest([100, 150, 300, 250, 200], y, { stageMinutes: 5, minutes: [5, 5, 5, 5, 3] });
    expect(incompleteLast(falling)).toBeNull();
    expect(usableReadings(falling).x.at(-1)).toBe(300);
  });
});

describe('exhaustion (our rule)', () => {
  const last = (lactate: number, rpe: number | null, toExhaustion?: boolean | null) =>
    usableReadings(
      stepTest(x, [1, 1.1, 1.5, 3, lactate], { rpe: [9, 11, 13, 15, rpe] }),
      toExhaustion === undefined ? {} : { toExhaustion },
    ).toExhaustion;

  test('is guessed from the last stage, and left open where it says too little', () => {
    expect(last(6, 17)).toBe(true);
    expect(last(6, 16)).toBeNull();
    expect(last(5.9, 17)).toBeNull();
    expect(last(3.9, 14)).toBe(false);
    expect(last(4, 14)).toBeNull();
    expect(last(8, null)).toBeNull();
    // 9 may be very hard on the 0–10 scale.
    expect(last(3, 9)).toBeNull();
  });

  test('what the reader says counts', () => {
    expect(last(6, 17, false)).toBe(false);
    expect(last(3, 12, true)).toBe(true);
    expect(last(6, 17, null)).toBeNull();
  });
});

describe('baseline', () => {
  const readings = usableReadings(stepTest(x, y, { restLactate: 1.3 }));
  const of = (rule: Parameters<typeof baselineLactate>[0], lactates: number[]) =>
    baselineLactate(rule, Float64Array.from(lactates), readings);

  test('by each definition', () => {
    const lactates = [1.2, 0.9, 1.1, 0.8, 3, 6];
    expect(of('first', lactates)).toBe(1.2);
    expect(of('lowest', lactates)).toBe(0.8);
    expect(of('lowest-two', lactates)).toBeCloseTo(0.95, 12);
    expect(of('rest', lactates)).toBe(1.3);
    expect(
      baselineLactate('rest', Float64Array.from(lactates), { ...readings, restLactate: null }),
    ).toBeNaN();
    expect(of('lowest-two', [2])).toBe(2);
  });
});

describe('heart rate', () => {
  const given = stepTest(x, y, {
    stageMinutes: 5,
    heartRate: [110, 130, null, 165, 178],
    minutes: [5, 5, 5, 5, 2.5],
  });

  test('lies on straight lines between completed stages, and nowhere else', () => {
    const rates = heartRatesOf(given);
    expect(rates).toEqual({ x: [100, 150, 250], bpm: [110, 130, 165] });
    expect(heartRateAt(rates, 125)).toBe(120);
    expect(heartRateAt(rates, 150)).toBe(130);
    expect(heartRateAt(rates, 200)).toBe(147.5);
    expect(heartRateAt(rates, 99)).toBeNull();
    expect(heartRateAt(rates, 251)).toBeNull();
    expect(heartRateAt({ x: [], bpm: [] }, 200)).toBeNull();
  });

  test('stages at one intensity give their mean', () => {
    expect(heartRatesOf(stepTest([100, 100], [1, 1], { heartRate: [110, 120] }))).toEqual({
      x: [100],
      bpm: [115],
    });
  });
});
