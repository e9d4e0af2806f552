/** A page that is not visible paints nothing; nobody waits for it longer than this, ms. */
const PATIENCE = 100;

/** Resolves when the page has painted what it has now. */
export function painted(): Promise<void> {
  const { promise, resolve } = Promise.withResolvers<void>();
  const timer = setTimeout(resolve, PATIENCE);
  requestAnimationFrame(() => setTimeout(resolve));
  return promise.finally(() => clearTimeout(timer));
}
