import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Hand } from '../../src/page/hand.ts';

beforeEach(() => {
  vi.useFakeTimers();
});
afterEach(() => {
  vi.useRealTimers();
});

test('a hand rests some time after its last move, not after its first', async () => {
  const hand = new Hand();
  expect(hand.atRest).toBe(true);
  hand.moves();
  let rests = false;
  void hand.rests().then(() => {
    rests = true;
  });
  await vi.advanceTimersByTimeAsync(100);
  hand.moves();
  await vi.advanceTimersByTimeAsync(240);
  expect([hand.atRest, rests]).toEqual([false, false]);
  await vi.advanceTimersByTimeAsync(10);
  expect([hand.atRest, rests]).toEqual([true, true]);
});
