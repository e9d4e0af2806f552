/** Longest that a computation holds the page up at a stretch, ms. */
const SLICE = 8;

/** Lets the page do everything else that it has to do first. */
const otherThings = (): Promise<void> =>
  'scheduler' in globalThis
    ? scheduler.postTask(() => {}, { priority: 'background' })
    : new Promise((resolve) => setTimeout(resolve));

interface Scheduler {
  postTask(act: () => void, options: { priority: 'background' }): Promise<void>;
}
declare const scheduler: Scheduler;

/**
 * Takes the steps of a computation in slices of a few milliseconds, with everything else that waits in between.
 * `told` gets the last step of each slice; true when the steps came to their end, false when the signal ended them.
 */
export async function inSlices<Step>(
  steps: Iterable<Step>,
  told: (step: Step) => void,
  { signal, now = () => performance.now() }: { signal: AbortSignal; now?: () => number },
): Promise<boolean> {
  const iterator = steps[Symbol.iterator]();
  while (!signal.aborted) {
    const until = now() + SLICE;
    let last: { step: Step } | null = null;
    let ended = false;
    do {
      const next = iterator.next();
      if (next.done) ended = true;
      else last = { step: next.value };
    } while (!ended && now() < until);
    if (last) told(last.step);
    if (ended) return true;
    await otherThings();
  }
  iterator.return?.();
  return false;
}
