import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { WorkbookDocument } from '../workbook/document.ts';

/** A workbook as kept in this browser. */
export interface StoredWorkbook {
  document: WorkbookDocument;
  /** Counts the saves, so that a save over somebody else's (another tab's) is noticed. */
  revision: number;
  /** False for a workbook that came from a file until the reader said that it may run. */
  mayRun: boolean;
}

/** Another tab saved the same workbook since it was read here. */
export class ConflictError extends Error {
  override readonly name = 'ConflictError';
}

interface Schema extends DBSchema {
  workbooks: { key: string; value: StoredWorkbook & { id: string } };
}

let opening: Promise<IDBPDatabase<Schema>> | null = null;

function database(): Promise<IDBPDatabase<Schema>> {
  opening ??= openDB<Schema>('hourline', 1, {
    upgrade: (db) => {
      db.createObjectStore('workbooks', { keyPath: 'id' });
    },
  });
  // A refusal is not remembered: the reader may allow storage and go on.
  opening.catch(() => {
    opening = null;
  });
  return opening;
}

/** Newest first. */
export async function listWorkbooks(): Promise<StoredWorkbook[]> {
  const all = await (await database()).getAll('workbooks');
  return all.sort((a, b) => b.document.changed.localeCompare(a.document.changed));
}

export async function readWorkbook(id: string): Promise<StoredWorkbook | null> {
  return (await (await database()).get('workbooks', id)) ?? null;
}

/**
 * Stores the workbook as the revision after `expected` (0: it is new) and returns the new revision.
 * Throws ConflictError, and stores nothing, when the stored revision is another one.
 */
export async function saveWorkbook(
  document: WorkbookDocument,
  expected: number,
  mayRun: boolean,
): Promise<number> {
  const change = (await database()).transaction('workbooks', 'readwrite', { durability: 'strict' });
  const present = await change.store.get(document.id);
  if ((present?.revision ?? 0) !== expected) {
    change.abort();
    await change.done.catch(() => {});
    throw new ConflictError(`the workbook “${document.title}” was changed in another tab`);
  }
  const revision = expected + 1;
  // A refusal (storage full) arrives at both promises; waiting for them together leaves none unhandled.
  await Promise.all([change.store.put({ id: document.id, document, revision, mayRun }), change.done]);
  return revision;
}

/** Removes the workbook and returns what was there, for taking the deletion back. */
export async function deleteWorkbook(id: string): Promise<StoredWorkbook | null> {
  const present = await readWorkbook(id);
  await (await database()).delete('workbooks', id);
  return present;
}

/** Takes a deletion back. */
export async function restoreWorkbook(stored: StoredWorkbook): Promise<void> {
  await (await database()).put('workbooks', { ...stored, id: stored.document.id });
}
