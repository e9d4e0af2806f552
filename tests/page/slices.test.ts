import { expect, test } from 'vitest';
import { inSlices } from '../../src/page/results/slices.ts';

/** Steps that take 3 ms each by this clock. */
function counted(count: number) {
  let time = 0;
  const log: string[] = [];
  function* steps() {
    try {
      for (let i = 1; i <= count; i++) {
        time += 3;
        yield i;
      }
    } finally {
      log.push('closed');
    }
  }
  return { steps: steps(), now: () => time, log };
}

test('a few milliseconds of steps at a stretch; the last of each stretch is told, then the end', async () => {
  const { steps, now } = counted(10);
  const told: number[] = [];
  const ended = await inSlices(steps, (step) => told.push(step), {
    signal: new AbortController().signal,
    now,
  });
  expect(told).toEqual([3, 6, 9, 10]);
  expect(ended).toBe(true);
});

test('other things come in between', async () => {
  const { steps, now } = counted(6);
  const order: string[] = [];
  setTimeout(() => order.push('other'));
  await inSlices(steps, (step) => order.push(`step ${step}`), { signal: new AbortController().signal, now });
  expect(order).toEqual(['step 3', 'other', 'step 6']);
});

test('cancelled between two stretches it stops there and lets the steps clean up', async () => {
  const { steps, now, log } = counted(100);
  const stop = new AbortController();
  const told: number[] = [];
  const ended = await inSlices(
    steps,
    (step) => {
      told.push(step);
      if (told.length === 2) stop.abort();
    },
    { signal: stop.signal, now },
  );
  expect(told).toEqual([3, 6]);
  expect(ended).toBe(false);
  expect(log).toEqual(['closed']);
});

test('what a step throws reaches the caller', async () => {
  function* failing() {
    yield 1;
    throw new Error('no more');
  }
  const run = inSlices(failing(), () => {}, { signal: new AbortController().signal });
  await expect(run).rejects.toThrow('no more');
});
