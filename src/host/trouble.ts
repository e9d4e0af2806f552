const cells = (count: number) => (count === 1 ? '1 cell' : `${count} cells`);
const wait = (count: number) => (count === 1 ? 'waits' : 'wait');

/** How many cells have no result of the present code, in words: '1 cell failed, 12 wait'; '' for none. */
export function troubleIn({ failed, waiting }: { failed: number; waiting: number }): string {
  if (failed === 0) return waiting === 0 ? '' : `${cells(waiting)} ${wait(waiting)}`;
  const failing = `${cells(failed)} failed`;
  return waiting === 0 ? failing : `${failing}, ${waiting} ${wait(waiting)}`;
}

/** Why this browser did not do what it was asked, for the middle of a sentence. */
export function reasonOf(error: unknown): string {
  if (error instanceof DOMException) {
    if (error.name === 'QuotaExceededError') return 'its storage is full';
    if (error.name === 'SecurityError') return 'it refuses storage to this page';
  }
  return error instanceof Error && error.message ? error.message : String(error);
}
