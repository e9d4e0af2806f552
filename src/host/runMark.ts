import { dropSetting, keepSetting, readSetting } from './settings.ts';
import { newId } from './workbookDocument.ts';

const keyOf = (id: string): string => `hourline-running:${id}`;

/** Locks that tabs hold on one workbook have one beginning, and each an end of its own. */
const lockOf = (id: string, page: string): string => `${keyOf(id)} ${page}`;

const PAGE = newId();

/** What lets go of the lock of each workbook that runs in this page. */
const held = new Map<string, () => void>();

/**
 * Remembers in this browser that a workbook began to run, until it has. A browser that gives the frame no process of its own
 * hangs as a whole with a cell that never ends, and would again at each opening: a workbook that is still marked when it is
 * opened is shown without running. Beside the mark, which outlives its page, stands a lock, which does not.
 */
export function markRun(id: string): void {
  keepSetting(keyOf(id), 'yes');
  if (!held.has(id)) void hold(id);
}

/** The run has ended, or was ended by somebody who knows. */
export function clearRun(id: string): void {
  dropSetting(keyOf(id));
  leaveRun(id);
}

/** What runs goes on under another id. */
export function moveRun(id: string, to: string): void {
  if (held.has(id)) markRun(to);
  clearRun(id);
}

/** The frame is gone: a run that had not ended stays marked and goes on nowhere. */
export function leaveRun(id: string): void {
  held.get(id)?.();
  held.delete(id);
}

/** Whether a run of this workbook began in this browser, nothing has said that it ended, and no other tab is still at it. */
export const neverEnded = async (id: string): Promise<boolean> =>
  readSetting(keyOf(id)) !== null && !(await runsElsewhere(id));

async function hold(id: string): Promise<void> {
  const { promise, resolve } = Promise.withResolvers<void>();
  held.set(id, resolve);
  try {
    await navigator.locks.request(lockOf(id, PAGE), () => promise);
  } catch {
    // Without locks (no TLS, refused storage) a run in another tab is taken for one that never ended.
  }
}

async function runsElsewhere(id: string): Promise<boolean> {
  try {
    const locks = await navigator.locks.query();
    return locks.held!.some(({ name }) => name!.startsWith(lockOf(id, '')) && name !== lockOf(id, PAGE));
  } catch {
    return false;
  }
}
