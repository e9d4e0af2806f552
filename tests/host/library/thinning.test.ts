import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type VersionKey, versionsThatFit, versionsToForget } from '../../../src/host/library/thinning.ts';
import type { WorkbookDocument } from '../../../src/workbook/document.ts';

const SECOND = 1000;
const MINUTE = 60 * SECOND;
const HOUR = 60 * MINUTE;
const DAY = 24 * HOUR;
const NOON = Date.parse('2026-03-04T12:00:00Z');

const key = (at: number, length = 40_000): VersionKey => ['a', at, length];
const kept = (keys: VersionKey[], now = NOON) => {
  const forgotten = new Set(versionsToForget(keys, now));
  return keys.filter((one) => !forgotten.has(one)).map((one) => one[1]);
};

describe('which versions stay', () => {
  test('of every second, one in five for two minutes, then one in thirty', () => {
    const keys = Array.from({ length: 240 }, (_, i) => key(NOON - i * SECOND));
    const stay = kept(keys);
    expect(stay.filter((at) => at > NOON - 2 * MINUTE)).toHaveLength(25); // 12:00:00 begins a stretch of its own
    expect(stay.filter((at) => at < NOON - 2 * MINUTE)).toHaveLength(4);
  });

  test('the newest of a stretch stays: what the workbook was before a long pause', () => {
    expect(kept([key(NOON - 3 * DAY), key(NOON - 3 * DAY + HOUR), key(NOON)])).toEqual([
      NOON - 3 * DAY + HOUR,
      NOON,
    ]);
  });

  test('long texts are bounded to 4 million characters, but three stay however long they are', () => {
    const hours = Array.from({ length: 20 }, (_, i) => key(NOON - (i + 3) * HOUR, 1_000_000));
    expect(kept(hours)).toHaveLength(4);
    const huge = Array.from({ length: 5 }, (_, i) => key(NOON - (i + 3) * HOUR, 9_000_000));
    expect(kept(huge)).toEqual(huge.slice(0, 3).map((one) => one[1]));
  });

  test('saved twice a second for a day, no more than 140 ever stand, and each hour of the day is there', () => {
    let keys: VersionKey[] = [];
    let most = 0;
    // Every 7.5 s stands for every half second here: the denser saves fall into the same stretches.
    for (let now = NOON; now <= NOON + DAY; now += 7.5 * SECOND) {
      keys.push(key(now, 1000));
      const forgotten = new Set(versionsToForget(keys, now));
      keys = keys.filter((one) => !forgotten.has(one));
      most = Math.max(most, keys.length);
    }
    expect(most).toBeLessThan(140);
    const hours = new Set(keys.map((one) => Math.floor(one[1] / HOUR)));
    expect(hours.size).toBeGreaterThanOrEqual(24);
  });

  test('the newest version is never let go, and thinning twice is thinning once', () => {
    const times = fc.uniqueArray(fc.integer({ min: NOON - 90 * DAY, max: NOON }), {
      minLength: 1,
      maxLength: 60,
    });
    fc.assert(
      fc.property(times, (ats) => {
        const keys = ats.map((at) => key(at));
        const stay = kept(keys);
        expect(stay).toContain(Math.max(...ats));
        expect(kept(stay.map((at) => key(at)))).toEqual(stay);
      }),
      { seed: 6, numRuns: 300 },
    );
  });
});

test('of the versions in a file a thousand short ones and three of any length fit, the newest', () => {
  const version = (at: number, length: number): WorkbookDocument => ({
    format: 'hourline-workbook-1',
    id: 'a',
    title: 'T',
    shipped: null,
    cells: [{ name: 'one.ts', text: 'x'.repeat(length) }],
    settings: {},
    changed: new Date(at).toISOString(),
  });
  const short = Array.from({ length: 1200 }, (_, i) => version(NOON + i * SECOND, 10));
  expect(versionsThatFit(short)).toEqual(short.slice(200).reverse());
  const long = Array.from({ length: 5 }, (_, i) => version(NOON + i * HOUR, 4_500_000));
  expect(versionsThatFit(long)).toEqual(long.slice(2).reverse());
});
