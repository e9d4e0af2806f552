import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { Hand } from '../../src/page/hand.ts';

let frames: (() => void)[] = [];

beforeEach(() => {
  vi.useFakeTimers();
  frames = [];
  vi.stubGlobal('requestAnimationFrame', (act: () => void) => frames.push(act));
});
afterEach(() => {
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const later = (milliseconds: number) => vi.advanceTimersByTimeAsync(milliseconds);
const paint = () => {
  for (const frame of frames.splice(0)) frame();
};

/** Moves the hand and tells whether it came to rest since. */
function moved(hand: Hand) {
  hand.moves();
  const rest = { came: false };
  void hand.rests()!.then(() => {
    rest.came = true;
  });
  return rest;
}

test('a hand that was never moved rests', () => {
  expect(new Hand().rests()).toBeNull();
});

test('a hand rests some time after its last move, not after its first', async () => {
  const hand = new Hand();
  const rest = moved(hand);
  paint();
  await later(200);
  hand.moves();
  paint();
  await later(200);
  expect(rest.came).toBe(false);
  await later(51);
  expect(rest.came).toBe(true);
  expect(hand.rests()).toBeNull();
});

test('the time counts from when it saw what the move did; a page that is not visible does not wait for that', async () => {
  const hand = new Hand();
  const rest = moved(hand);
  await later(90);
  paint();
  await later(249);
  expect(rest.came).toBe(false);
  await later(2);
  expect(rest.came).toBe(true);
  const unseen = moved(hand);
  await later(351);
  expect(unseen.came).toBe(true);
});
