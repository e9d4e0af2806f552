import type { Page } from 'playwright-core';
import type { CellText, WorkbookDocument } from '../../src/workbook/document.ts';

/** A record as the host keeps it. */
export interface Kept {
  id: string;
  document: WorkbookDocument;
  revision: number;
  mayRun: boolean;
}

/** An id as Hourline makes them, from a small number. */
export const idOf = (number: number): string => number.toString(16).padStart(32, '0');

export function keptWorkbook(number: number, title: string, cells: CellText[]): Kept {
  const changed = new Date(Date.UTC(2026, 0, number)).toISOString();
  const format = 'hourline-workbook-1';
  const id = idOf(number);
  return {
    id,
    document: { format, id, title, shipped: null, cells, settings: {}, changed },
    revision: 1,
    mayRun: true,
  };
}

/** Puts records into the browser's database, made as version `version`, before Hourline is opened. */
export async function keep(page: Page, url: string, records: readonly unknown[], version = 2): Promise<void> {
  await page.goto(`${url}no-such-page`); // the same origin, with nothing running
  await page.evaluate(
    ([given, at]) =>
      new Promise<void>((resolve, reject) => {
        const opening = indexedDB.open('hourline', at);
        opening.onerror = () => reject(opening.error);
        opening.onupgradeneeded = () => {
          opening.result.createObjectStore('workbooks', { keyPath: 'id' });
          opening.result.createObjectStore('versions');
        };
        opening.onsuccess = () => {
          const change = opening.result.transaction('workbooks', 'readwrite');
          for (const record of given) change.objectStore('workbooks').put(record);
          change.oncomplete = () => {
            opening.result.close();
            resolve();
          };
        };
      }),
    [records, version] as const,
  );
}

/** All records in the browser's database. Works from any page of the origin. */
export function readKept(page: Page): Promise<Kept[]> {
  return page.evaluate(
    () =>
      new Promise<Kept[]>((resolve, reject) => {
        const opening = indexedDB.open('hourline');
        opening.onerror = () => reject(opening.error);
        opening.onsuccess = () => {
          const all = opening.result.transaction('workbooks').objectStore('workbooks').getAll();
          all.onsuccess = () => {
            opening.result.close();
            resolve(all.result as Kept[]);
          };
        };
      }),
  );
}
