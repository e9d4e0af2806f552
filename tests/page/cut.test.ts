import { describe, expect, test } from 'vitest';
import { courseOf } from '../../src/page/controls/grid/course.ts';
import { nearestEnd, withEnd, withSplit } from '../../src/page/controls/grid/cut.ts';
import { readStopwatch, stopwatch } from '../../src/page/controls/grid/times.ts';

const SPANS = [
  { start: 0, end: 60 },
  { start: 60, end: 120 },
  { start: 150, end: 200 },
];

describe('ends of stretches', () => {
  test('an end moves as far as its neighbours, the recording and its own other end let it', () => {
    const moved = (index: number, side: 'start' | 'end', to: number) =>
      withEnd(SPANS, { index, side }, to, 240)[index]![side];
    expect(moved(0, 'start', -20)).toBe(0);
    expect(moved(0, 'end', 90)).toBe(60);
    expect(moved(0, 'end', 1)).toBe(5);
    expect(moved(1, 'end', 400)).toBe(150);
    expect(moved(2, 'start', 10)).toBe(120);
    expect(moved(2, 'end', 400)).toBe(240);
    expect(moved(2, 'end', 187.6)).toBe(188);
  });

  test('the others stay as they were', () => {
    expect(withEnd(SPANS, { index: 1, side: 'end' }, 130, 240).toSpliced(1, 1)).toEqual([SPANS[0], SPANS[2]]);
  });

  test('a stretch is divided in its middle, unless its halves would be too short', () => {
    expect(withSplit(SPANS, 1)).toEqual([
      SPANS[0],
      { start: 60, end: 90 },
      { start: 90, end: 120 },
      SPANS[2],
    ]);
    expect(withSplit([{ start: 0, end: 9 }], 0)).toEqual([{ start: 0, end: 9 }]);
  });

  test('the pointer takes the nearest end, and none that is far', () => {
    expect(nearestEnd(SPANS, 147, 10)).toEqual({ index: 2, side: 'start' });
    expect(nearestEnd(SPANS, 135, 10)).toBeNull();
    expect(nearestEnd([], 1, 10)).toBeNull();
  });
});

test('times as a stopwatch shows them, and back', () => {
  expect([0, 5, 65, 119.7, 3725].map(stopwatch)).toEqual(['0:00', '0:05', '1:05', '2:00', '62:05']);
  expect(['0:05', '62:05', '1:02:05', ' 1:30 '].map(readStopwatch)).toEqual([5, 3725, 3725, 90]);
  expect(['5', '1:60', '1:5', 'x'].map(readStopwatch)).toEqual([null, null, null, null]);
});

describe('the course of a recording', () => {
  test('is interrupted where nothing was recorded, and at the bottom where zero was', () => {
    const { path, most, isInterrupted } = courseOf([100, NaN, 0, 200], 40, 100);
    expect(path).toBe('M0,55.0H10M20,100.0H30V10.0H40');
    expect([most, isInterrupted]).toEqual([200, true]);
  });

  test('keeps the height of its steps beside a spike', () => {
    const { path, most, isInterrupted } = courseOf([...Array(99).fill(100), 2000], 100, 100);
    expect([most, isInterrupted]).toEqual([150, false]);
    expect(path).toMatch(/V10\.0H100$/);
  });
});
