import { expect, test } from 'vitest';
import type { Display } from '../../src/toolkit/display.ts';
import { chanceWords, spreadWords, timeWords } from '../../src/toolkit/sayHour.ts';

const display: Display = { axis: 'power', unit: 'W', second: null, bodyMass: 70, lo: 120, hi: 320 };

test.each([
  [0, 'less than 1\u202f%'],
  [0.004, 'less than 1\u202f%'],
  [0.083, '8\u202f%'],
  [1, 'more than 99\u202f%'],
])('a chance of %d is %s', (chance, words) => {
  expect(chanceWords(chance)).toBe(words);
});

test.each([
  [0, '0\u202fmin'],
  [45, '45\u202fs'],
  [120, '2\u202fmin'],
  [5340, '89\u202fmin'],
  [5400, '1:30\u202fh'],
  [38_100, '10:35\u202fh'],
])('%d s are %s', (seconds, words) => {
  expect(timeWords(seconds)).toBe(words);
});

test('an end beyond what was tested is no number', () => {
  expect(spreadWords({ median: 280, low: 265, high: 295 }, display)).toBe('265–295\u202fW');
  const open = spreadWords({ median: 300, low: 265, high: Number.POSITIVE_INFINITY }, display);
  expect(open).toContain('265');
  expect(open).toContain('above 320');
});
