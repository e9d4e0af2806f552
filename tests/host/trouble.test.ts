import { expect, test } from 'vitest';
import { troubleIn } from '../../src/host/trouble.ts';

test.each([
  [0, 0, ''],
  [1, 0, '1 cell failed'],
  [2, 1, '2 cells failed, 1 waits'],
  [1, 12, '1 cell failed, 12 wait'],
  [0, 1, '1 cell waits'],
  [0, 12, '12 cells wait'],
])('%i failed and %i waiting cells: %j', (failed, waiting, words) => {
  expect(troubleIn({ failed, waiting })).toBe(words);
});
