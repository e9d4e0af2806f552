import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { WorkbookDocument } from '../workbook/document.ts';
import type { VersionKey } from './library/thinning.ts';

/** A workbook as kept in this browser. */
export interface StoredWorkbook {
  document: WorkbookDocument;
  /** Counts the saves, so that a save over somebody else's (another tab's) is noticed. */
  revision: number;
  /** False for a workbook that came from a file until the reader said that it may run. */
  mayRun: boolean;
  /** ISO date-time of its deletion; it can be put back for a while. */
  deleted?: string;
}

/** What a workbook was before. */
export interface KeptVersion extends WorkbookDocument {
  /** There only for one that came from a file: it is not run until the reader says so, whatever the workbook may. */
  mayRun?: false;
}

interface Schema extends DBSchema {
  workbooks: { key: string; value: StoredWorkbook & { id: string } };
  /** What workbooks were before; the key says all that thinning has to know, so that no text is read for it. */
  versions: { key: VersionKey; value: KeptVersion };
}

/** The open database, and whether it may be written to. */
export interface Opened {
  database: IDBPDatabase<Schema>;
  /** Why it can be read but not changed; '' when it can be changed. */
  readOnly: string;
}

const VERSION = 2;

let opening: Promise<Opened> | null = null;

/** The database, opened once. A refusal is not remembered: the reader may allow storage and go on. */
export function openDatabase(): Promise<Opened> {
  if (opening) return opening;
  const started = open();
  opening = started;
  started.catch(() => forget(started));
  return started;
}

/** The database for changes. Throws when this program may only read it. */
export async function changeableDatabase(): Promise<IDBPDatabase<Schema>> {
  const { database, readOnly } = await openDatabase();
  if (readOnly) throw new Error(readOnly);
  return database;
}

function forget(opened: Promise<Opened>): void {
  if (opening === opened) opening = null;
}

async function open(): Promise<Opened> {
  try {
    return { database: await openAt(VERSION), readOnly: '' };
  } catch (error) {
    if (!(error instanceof DOMException && error.name === 'VersionError')) throw error;
    const readOnly = 'a newer Hourline kept them, and this one cannot change what it does not know';
    return { database: await openAt(undefined), readOnly };
  }
}

/** Without a version, the database as it is. */
function openAt(version: number | undefined): Promise<IDBPDatabase<Schema>> {
  const { promise, resolve, reject } = Promise.withResolvers<IDBPDatabase<Schema>>();
  const close = (event: IDBVersionChangeEvent) => {
    (event.target as IDBDatabase).close(); // or a newer Hourline in another tab would wait for ever
    opening = null;
  };
  openDB<Schema>('hourline', version, {
    upgrade: (database, from) => {
      if (from < 1) database.createObjectStore('workbooks', { keyPath: 'id' });
      if (from < 2) database.createObjectStore('versions');
    },
    blocked: () => reject(new Error('an older Hourline is open in another tab: close that tab')),
    blocking: (_current, _wanted, event) => close(event),
    terminated: () => {
      opening = null;
    },
  }).then(resolve, reject);
  return promise;
}
