import type { WorkbookDocument } from '../workbook/document.ts';
import { changeableDatabase, openDatabase, type StoredWorkbook } from './database.ts';
import { type Damaged, DamagedError, readRecord } from './library/record.ts';
import { type VersionKey, versionKey, versionsToForget } from './library/thinning.ts';

export type { StoredWorkbook } from './database.ts';

/** Another tab saved the same workbook since it was read here. */
export class ConflictError extends Error {
  override readonly name = 'ConflictError';
}

/** How long a deleted workbook can be put back, ms. (Our rule.) */
const KEPT_AFTER_DELETION = 30 * 24 * 3600 * 1000;

const WRITING = { durability: 'strict' } as const;

/** All that the database holds, newest first. */
export interface Contents {
  workbooks: StoredWorkbook[];
  deleted: StoredWorkbook[];
  damaged: Damaged[];
  /** Why nothing can be changed; '' when it can. */
  readOnly: string;
}

/** All that is kept in this browser, newest first; what cannot be read is told as damaged and left as it is. */
export async function readContents(): Promise<Contents> {
  const { database, readOnly } = await openDatabase();
  const contents: Contents = { workbooks: [], deleted: [], damaged: [], readOnly };
  for (const { id, raw } of await readEach()) {
    const stored = readRecord(raw);
    if (stored) (stored.deleted ? contents.deleted : contents.workbooks).push(stored);
    else contents.damaged.push({ id, raw });
  }
  const newestFirst = (a: StoredWorkbook, b: StoredWorkbook) =>
    b.document.changed.localeCompare(a.document.changed);
  contents.workbooks.sort(newestFirst);
  contents.deleted.sort(newestFirst);
  return contents;

  /** All at once, or one by one when one of them cannot be read: it would take the others with it. */
  async function readEach(): Promise<Damaged[]> {
    try {
      return (await database.getAll('workbooks')).map((raw) => ({ id: raw.id, raw }));
    } catch {
      const ids = await database.getAllKeys('workbooks');
      return Promise.all(
        ids.map(async (id) => ({ id, raw: await database.get('workbooks', id).catch(() => undefined) })),
      );
    }
  }
}

/** Null when there is none, or it was deleted. Throws DamagedError when its record cannot be read. */
export async function readWorkbook(id: string): Promise<StoredWorkbook | null> {
  const { database } = await openDatabase();
  const raw = await database.get('workbooks', id).catch(() => {
    throw new DamagedError({ id, raw: undefined });
  });
  if (!raw) return null;
  const stored = readRecord(raw);
  if (!stored) throw new DamagedError({ id, raw });
  return stored.deleted ? null : stored;
}

/**
 * Stores the workbook as the revision after `expected` (0: it is new) and returns the new revision; the state before
 * stays as a version. Throws ConflictError, and stores nothing, when the stored revision is another one.
 */
export async function saveWorkbook(
  document: WorkbookDocument,
  expected: number,
  mayRun: boolean,
): Promise<number> {
  try {
    return await save(document, expected, mayRun, true);
  } catch (error) {
    if (!isStorageFull(error)) throw error;
    return save(document, expected, mayRun, false); // the work of now comes before one more version
  }
}

const isStorageFull = (error: unknown): boolean =>
  error instanceof DOMException && error.name === 'QuotaExceededError';

async function save(
  document: WorkbookDocument,
  expected: number,
  mayRun: boolean,
  withVersion: boolean,
): Promise<number> {
  const change = (await changeableDatabase()).transaction(['workbooks', 'versions'], 'readwrite', WRITING);
  const workbooks = change.objectStore('workbooks');
  const versions = change.objectStore('versions');
  const present = await workbooks.get(document.id);
  if ((present?.revision ?? 0) !== expected) {
    change.abort();
    await change.done.catch(() => {});
    throw new ConflictError(`the workbook “${document.title}” was changed in another tab`);
  }
  const revision = expected + 1;
  const writes: Promise<unknown>[] = [workbooks.put({ id: document.id, document, revision, mayRun })];
  if (withVersion && present && present.document.changed !== document.changed) {
    const key = versionKey(present.document);
    const keys = await versions.getAllKeys(versionsOf(document.id));
    writes.push(versions.put(present.document, key));
    for (const old of versionsToForget([...keys, key], Date.now())) writes.push(versions.delete(old));
  }
  // A refusal (storage full) arrives at all promises; waiting for them together leaves none unhandled.
  await Promise.all([...writes, change.done]);
  return revision;
}

/** An array is greater than any number, so this holds all keys that begin with the id. */
const versionsOf = (id: string) => IDBKeyRange.bound([id], [id, []]);

/** What a workbook was at a moment before. */
export interface Version {
  /** ms since 1970. */
  at: number;
  document: WorkbookDocument;
  /** False for one that came from a file. */
  mayRun: boolean;
}

/** Newest first; those that cannot be read are left out. */
export async function listVersions(id: string): Promise<Version[]> {
  const { database } = await openDatabase();
  const keys = await database.getAllKeys('versions', versionsOf(id));
  const found = await Promise.all(keys.map(readVersion));
  return found.filter((version) => version !== null).sort((a, b) => b.at - a.at);
}

/** Of all workbooks, newest first. */
export async function listVersionKeys(): Promise<VersionKey[]> {
  const { database } = await openDatabase();
  return (await database.getAllKeys('versions')).sort((a, b) => b[1] - a[1]);
}

/** Null when it cannot be read. */
export async function readVersion(key: VersionKey): Promise<Version | null> {
  const { database } = await openDatabase();
  const kept = await database.get('versions', key).catch(() => undefined);
  const readable = readRecord({ id: key[0], document: kept, revision: 0 });
  return readable && { at: key[1], document: readable.document, mayRun: kept?.mayRun !== false };
}

/** Adds versions from a file to those of the workbook `id` and returns how many were not there yet. None there changes. */
export async function addVersions(id: string, documents: readonly WorkbookDocument[]): Promise<number> {
  const change = (await changeableDatabase()).transaction('versions', 'readwrite', WRITING);
  const there = new Set((await change.store.getAllKeys(versionsOf(id))).map(String));
  const writes: Promise<unknown>[] = [];
  for (const document of documents) {
    const version = { ...document, id };
    const key = versionKey(version);
    if (there.has(String(key))) continue;
    there.add(String(key));
    writes.push(change.store.put({ ...version, mayRun: false }, key));
  }
  await Promise.all([...writes, change.done]);
  return writes.length;
}

/** Deletes the earlier versions of all workbooks, to make room. */
export async function forgetVersions(): Promise<void> {
  await (await changeableDatabase()).clear('versions');
}

/** Marks the workbook as deleted. Its record and versions stay until they are removed. */
export const deleteWorkbook = (id: string): Promise<void> => mark(id, new Date().toISOString());

/** Takes a deletion back. */
export const restoreWorkbook = (id: string): Promise<void> => mark(id, undefined);

/** The revision goes on, so that a tab that has the workbook open notices. */
async function mark(id: string, deleted: string | undefined): Promise<void> {
  const change = (await changeableDatabase()).transaction('workbooks', 'readwrite', WRITING);
  const present = await change.store.get(id);
  if (!present) return;
  const { deleted: _, ...record } = present;
  const marked = { ...record, ...(deleted ? { deleted } : {}), revision: present.revision + 1 };
  await Promise.all([change.store.put(marked), change.done]);
}

/** Removes the record and its versions for good. */
export async function removeWorkbook(id: string): Promise<void> {
  const change = (await changeableDatabase()).transaction(['workbooks', 'versions'], 'readwrite', WRITING);
  await Promise.all([
    change.objectStore('workbooks').delete(id),
    change.objectStore('versions').delete(versionsOf(id)),
    change.done,
  ]);
}

/** Removes what was deleted long ago. */
export async function removeOldDeleted(deleted: readonly StoredWorkbook[]): Promise<void> {
  const old = deleted.filter((stored) => Date.parse(stored.deleted!) < Date.now() - KEPT_AFTER_DELETION);
  for (const { document } of old) await removeWorkbook(document.id);
}
