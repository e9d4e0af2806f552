import { describe, expect, test } from 'vitest';
import { footOn, within } from '../../src/charts/constructionLines.ts';
import { constructionScales } from '../../src/charts/constructionScales.ts';
import { type KeyEntry, layKey } from '../../src/charts/pictureKey.ts';
import type { Construction, Mark } from '../../src/physiology/construction.ts';

const box = { left: 0, right: 10, top: 0, bottom: 10 };

describe('a line cut to a box', () => {
  test('keeps what lies inside', () => {
    expect(within([1, 1], [9, 5], box)).toEqual([
      [1, 1],
      [9, 5],
    ]);
    // From (−5, −5) to (15, 15): the diagonal of the box.
    expect(within([-5, -5], [15, 15], box)).toEqual([
      [0, 0],
      [10, 10],
    ]);
  });

  test('upright and level lines are cut on one axis alone', () => {
    expect(within([3, -4], [3, 20], box)).toEqual([
      [3, 0],
      [3, 10],
    ]);
    expect(within([-4, 3], [20, 3], box)).toEqual([
      [0, 3],
      [10, 3],
    ]);
  });

  test('is nothing when it misses the box', () => {
    expect(within([-1, 3], [-1, 8], box)).toBeNull();
    expect(within([8, -4], [14, 2], box)).toBeNull();
  });
});

test('the shortest way to a line meets it at a right angle', () => {
  expect(
    footOn(
      [0, 5],
      [
        [0, 0],
        [10, 10],
      ],
    ),
  ).toEqual([2.5, 2.5]);
});

describe('the scales of a construction', () => {
  const readings: Mark = { kind: 'readings', x: [100, 300], y: [1, 7] };
  const of = (logarithmic: boolean, ...marks: Mark[]): Construction => ({
    axes: { x: 'intensity', y: 'lactate', logarithmic },
    marks,
    caption: '',
  });

  test('levels are in sight, tangents may leave the picture', () => {
    const tangent: Mark = { kind: 'line', from: [100, -40], to: [300, 60], role: 'tangent', label: '' };
    const level: Mark = { kind: 'level', y: 12, label: '' };
    const { y } = constructionScales(of(false, readings, tangent, level));
    expect(y[0]).toBe(0);
    expect(y[1]).toBeCloseTo(12 * 1.06, 9);
  });

  test('a rise below zero is in sight', () => {
    const fall: Mark = { kind: 'readings', x: [250, 280], y: [-0.4, 0.9] };
    expect(constructionScales(of(false, fall)).y[0]).toBeLessThan(-0.4);
  });

  test('logarithmic axes are given up where a place has no logarithm', () => {
    expect(constructionScales(of(true, readings)).logarithmic).toBe(true);
    const atZero: Mark = { kind: 'readings', x: [0, 300], y: [1, 7] };
    expect(constructionScales(of(true, atZero)).logarithmic).toBe(false);
  });

  test('a single place still has a range on both axes', () => {
    const { x, y } = constructionScales(of(false, { kind: 'readings', x: [250], y: [0] }));
    expect(x[1]).toBeGreaterThan(x[0]);
    expect(y[1]).toBeGreaterThan(y[0]);
  });
});

describe('the key of a picture', () => {
  const entries: KeyEntry[] = ['readings', 'fitted curve', 'threshold'].map((text) => ({
    sign: 'curve',
    text,
  }));

  test('stands in one row where there is room, else in as many as it needs', () => {
    expect(new Set(layKey(entries, 900).entries.map((e) => e.y)).size).toBe(1);
    const narrow = layKey(entries, 130);
    expect(narrow.entries.map((e) => e.x)).toEqual([2, 2, 2]);
    expect(narrow.height).toBe(3 * 19);
  });
});
