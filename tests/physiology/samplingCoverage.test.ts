import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { coverageCaution, UNCALIBRATED } from '../../src/physiology/calibration.ts';
import { HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { METHODS, methodById } from '../../src/physiology/methods/index.ts';
import { ATHLETES } from '../calibration/athletes.ts';
import { coverageOf } from '../calibration/coverage.ts';
import { BOUNDS } from '../calibration/report.ts';

describe('the committed table of what intervals hold', () => {
  const table = readFileSync(path.resolve(import.meta.dirname, '../calibration/coverage.md'), 'utf8');
  const rows = table
    .split('\n')
    .filter((line) => /^\| [^m|-]/.test(line))
    .map((line) => line.split('|').map((cell) => cell.trim()))
    .map(([, name, intervals, , held95, held80]) => ({
      name: name!.replace(' †', ''),
      marked: name!.endsWith('†'),
      intervals: Number(intervals),
      held95: Number(held95) / 100,
      held80: Number(held80) / 100,
    }));
  const idOf = (name: string) => METHODS.find((method) => method.name === name)!.id;

  test('is of every type and meter, with 2,000 tests or as many as a method answers', () => {
    expect(table.match(/^### /gm)).toHaveLength(2 * ATHLETES.length);
    expect(table).toContain('2000 simulated tests of each type and meter');
    expect(rows.length).toBeGreaterThan(100);
    for (const { intervals } of rows) expect(intervals).toBeLessThanOrEqual(2000);
  });

  test('marks what is outside its bounds, and only that', () => {
    const within = (share: number, [low, high]: readonly [number, number]) => share >= low && share <= high;
    for (const { name, marked, held95, held80 } of rows) {
      expect(!(within(held95, BOUNDS.held95) && within(held80, BOUNDS.held80)), name).toBe(marked);
    }
  });

  test('every method that is marked anywhere has its reason in the panel, and no other', () => {
    const marked = new Set(rows.filter((row) => row.marked).map(({ name }) => idOf(name)));
    expect([...marked].sort()).toEqual([...UNCALIBRATED].sort());
    for (const id of UNCALIBRATED) expect(coverageCaution(id)).toMatch(/%/);
    expect(coverageCaution('fixed-4.0')).toBeNull();
    expect(methodById('fixed-4.0').name).toBe('Fixed 4.0');
  });
});

describe('a small run of the same', () => {
  const tests = 300;
  const some = { tests, draws: 400, seed: 5 };
  /** Four standard errors of a share over these tests, and the grain of order statistics among 400 draws. */
  const bound = (share: number) => 4 * Math.sqrt((share * (1 - share)) / tests) + 1 / 400;

  test.each(['fixed-4.0', 'baseline-plus-1.0', 'dmax-exponential'])('%s', (method) => {
    const found = coverageOf(ATHLETES[0]!, { ...some, error: HANDHELD }).find(
      (one) => one.method === method,
    )!;
    expect(found.determined).toBeGreaterThan(0.95);
    expect(Math.abs(found.held95 - 0.95)).toBeLessThan(bound(0.95));
    expect(Math.abs(found.held80 - 0.8)).toBeLessThan(bound(0.8));
  });

  test('the check can fail: intervals of half the error hold far less', () => {
    const error = { ...NO_ERROR, repeatability: 0.1 };
    const claimed = { ...error, repeatability: 0.05 };
    const found = coverageOf(ATHLETES[0]!, { ...some, error, claimed });
    expect(found.find((one) => one.method === 'fixed-4.0')!.held95).toBeLessThan(0.95 - bound(0.95));
  });
});
