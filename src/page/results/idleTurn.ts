/** Longest that something waits for the page to be idle, ms. */
const PATIENCE = 1000;

/** Resolves when the page has nothing better to do. */
export const idleTurn = (): Promise<void> =>
  new Promise((resolve) => {
    // Not every browser tells when it is idle.
    if ('requestIdleCallback' in window) requestIdleCallback(() => resolve(), { timeout: PATIENCE });
    else setTimeout(resolve, PATIENCE / 10);
  });
