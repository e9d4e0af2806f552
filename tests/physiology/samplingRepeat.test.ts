import { describe, expect, test } from 'vitest';
import { HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { repeatGains } from '../../src/physiology/repeatReading.ts';
import { stepTest, TEN_PRE } from './stepTests.ts';

const readings = usableReadings(TEN_PRE);
const level = { methods: ['fixed-4.0'], options: { curve: 'raw' } as const, seed: 8 };

describe('which repeat reading narrows the interval most', () => {
  test('on straight lines, by hand: the upper neighbour of 4 mmol/L, and only neighbours count', () => {
    const draws = 20_000;
    const error = { ...NO_ERROR, repeatability: 0.1 };
    const [gain] = repeatGains(readings, { ...level, error, draws });
    // 4 mmol/L lies between 325 W (2.60) and 350 W (4.69) at this share of the way; a repeat halves one variance.
    const share = (4 - 2.6) / (4.69 - 2.6);
    const all = Math.hypot(share, 1 - share);
    const expected = [
      Math.hypot(share, (1 - share) / Math.SQRT2) / all,
      Math.hypot(share / Math.SQRT2, 1 - share) / all,
    ];
    expect(gain!.best).toBe(7);
    expect(gain!.ratios.slice(0, 6)).toEqual([1, 1, 1, 1, 1, 1]);
    for (const [k, want] of expected.entries()) {
      expect(Math.abs(gain!.ratios[6 + k]! - want)).toBeLessThan(0.03);
    }
  });

  test('an error that the whole test shares is narrowed by no repeat', () => {
    const error = { ...NO_ERROR, gain: 0.03, offset: 0.05 };
    const [gain] = repeatGains(readings, { ...level, error, draws: 2000 });
    expect(gain!.ratios).toEqual(new Array(8).fill(1));
    expect(gain!.best).toBeNull();
  });

  test('an end beyond the tested range leaves the width unknown', () => {
    const near = usableReadings(stepTest([100, 150, 200, 250, 300], [1, 1.1, 1.4, 2.2, 4.1]));
    const error = { ...NO_ERROR, repeatability: 0.08 };
    const [gain] = repeatGains(near, { ...level, error, draws: 1000 });
    expect(gain!.width).toBeNull();
    expect(gain!.best).toBeNull();
  });

  test('of every method at once, and the readings stay as they were', () => {
    const gains = repeatGains(readings, { error: HANDHELD, seed: 8, draws: 1000 });
    expect(gains.length).toBeGreaterThan(15);
    expect(gains.every(({ ratios }) => ratios.length === 8)).toBe(true);
    expect(gains.some(({ best }) => best !== null)).toBe(true);
    expect([...readings.count]).toEqual(new Array(8).fill(1));
  });
});
