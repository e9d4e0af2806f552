import { describe, expect, test } from 'vitest';
import { namesInRows } from '../../src/charts/bandsChart.ts';
import { hatchPath } from '../../src/charts/hatch.ts';
import { roundTicks } from '../../src/charts/house.ts';
import { intensityDomain } from '../../src/charts/intensityScale.ts';
import { LETTER, layRows } from '../../src/charts/rows.ts';

describe('round ticks', () => {
  test('steps are 1, 2 or 5 and stay within the range', () => {
    expect(roundTicks(117, 326, 5)).toEqual([150, 200, 250, 300]);
    expect(roundTicks(5.8, 12.8, 9)).toEqual([6, 7, 8, 9, 10, 11, 12]);
    expect(roundTicks(-0.9, 0.9, 4)).toEqual([-0.5, 0, 0.5]);
  });

  test('values are exact decimals', () => {
    expect(roundTicks(0, 1, 10)).toEqual([0, 0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1]);
  });
});

test('the tested range gets the same air at both ends', () => {
  expect(intensityDomain(100, 300)).toEqual([94, 306]);
});

describe('hatching', () => {
  const lines = (d: string) =>
    [...d.matchAll(/M([\d.-]+),([\d.-]+)L([\d.-]+),([\d.-]+)/g)].map((m) => m.slice(1).map(Number));
  const rectangle = { left: 20, right: 75, top: 10, bottom: 40 };

  test('every line lies within its rectangle and rises at 45 degrees', () => {
    const drawn = lines(hatchPath(rectangle));
    expect(drawn.length).toBeGreaterThan(8);
    for (const [x1, y1, x2, y2] of drawn) {
      expect(Math.min(x1!, x2!)).toBeGreaterThanOrEqual(20);
      expect(Math.max(x1!, x2!)).toBeLessThanOrEqual(75);
      expect(Math.min(y1!, y2!)).toBeGreaterThanOrEqual(10);
      expect(Math.max(y1!, y2!)).toBeLessThanOrEqual(40);
      expect(x2! - x1!).toBeCloseTo(y1! - y2!, 1);
    }
  });

  test('nothing is drawn where there is no width', () => {
    expect(hatchPath({ ...rectangle, right: 20 })).toBe('');
  });
});

describe('rows of methods', () => {
  const row = (name: string, claim: 'LT1' | 'LT2') => ({ name, claim, value: '281 W', range: '275–289' });
  const rows = [row('Fixed 4.0 mmol/L', 'LT2'), row('Log-log breakpoint', 'LT1'), row('Dmax', 'LT2')];

  test('first-threshold rows come first, each group under its heading', () => {
    const { placed, headings } = layRows(rows, { top: 0, width: 900, rowHeight: 26 });
    expect(placed.map((p) => p.row.name)).toEqual(['Log-log breakpoint', 'Fixed 4.0 mmol/L', 'Dmax']);
    expect(headings.map((h) => h.text)).toEqual(['First threshold (LT1)', 'Second threshold (LT2)']);
    expect(headings[0]!.y).toBeLessThan(placed[0]!.y);
    expect(headings[1]!.y).toBeGreaterThan(placed[0]!.y);
  });

  test('the left margin holds the longest name', () => {
    const { marginLeft, narrow } = layRows(rows, { top: 0, width: 900, rowHeight: 26 });
    expect(narrow).toBe(false);
    expect(marginLeft).toBeGreaterThan('Log-log breakpoint'.length * LETTER);
  });

  test('names go above their rows on a narrow page and where they would take half the width', () => {
    expect(layRows(rows, { top: 0, width: 340, rowHeight: 26 }).narrow).toBe(true);
    const long = [row('x'.repeat(60), 'LT1')];
    expect(layRows(long, { top: 0, width: 900, rowHeight: 26 }).narrow).toBe(true);
  });
});

describe('names of bands', () => {
  const band = (name: string, from: number, to: number) => ({
    name,
    from,
    to,
    tone: 'between' as const,
    undecided: false,
  });

  test('names with room stay on one line', () => {
    const bands = [band('easy', 0, 50), band('steady', 50, 100)];
    expect(namesInRows(bands, 4, 7).map((n) => n.level)).toEqual([0, 0]);
  });

  test('a name that would touch the one before moves to the next line', () => {
    const bands = [band('between the thresholds', 0, 20), band('hard', 20, 25), band('all out', 25, 30)];
    expect(namesInRows(bands, 2, 7).map((n) => n.level)).toEqual([0, 1, 2]);
  });
});
