import { beforeEach, describe, expect, test } from 'vitest';
import { openDatabase } from '../../src/host/database.ts';
import { Library } from '../../src/host/library/library.ts';
import { saveAll } from '../../src/host/library/saveAll.ts';
import {
  deleteWorkbook,
  listVersions,
  readContents,
  readWorkbook,
  saveWorkbook,
} from '../../src/host/store.ts';
import type { WorkbookDocument } from '../../src/workbook/document.ts';

const idOf = (number: number): string => number.toString(16).padStart(32, '0');
const FIRST = Date.parse('2020-02-03T04:00:00.000Z');
/** So far apart that none is thinned out, whenever the test runs. */
const APART = 40 * 24 * 3_600_000;

/** What the workbook was at its `turn`-th state. */
const state = (number: number, turn: number, text = `export default ${turn};\n`): WorkbookDocument => ({
  format: 'hourline-workbook-1',
  id: idOf(number),
  title: `Test ${number}`,
  shipped: null,
  cells: [{ name: 'one.ts', text }],
  settings: {},
  changed: new Date(FIRST + turn * APART).toISOString(),
});

/** Saves the states of a workbook one after the other. */
async function save(...states: WorkbookDocument[]): Promise<void> {
  for (const [i, one] of states.entries()) await saveWorkbook(one, i, true);
}

/** What another browser would have: nothing. */
async function clear(): Promise<void> {
  const { database } = await openDatabase();
  await database.clear('workbooks');
  await database.clear('versions');
}

const saveToText = async (most?: number): Promise<string> => {
  const { lines } = await saveAll(await readContents(), '2026-03-04T05:06:07.000Z', most);
  return lines.join('');
};
const takeIn = (text: string): Promise<string> => new Library(() => {}).takeIn(text, 'all.ndjson');
const versionsOf = async (number: number) =>
  (await listVersions(idOf(number))).map(({ document }) => document);

beforeEach(clear);

describe('all workbooks in one file', () => {
  const [a, b, c] = [state(1, 0), state(1, 1), state(1, 2)];

  test('bring their earlier versions, with their dates, to another browser; a second time nothing is doubled', async () => {
    await save(a, b, c);
    await save(state(2, 0));
    const text = await saveToText();
    await clear();
    expect(await takeIn(text)).toBe('all.ndjson: 2 added, with 2 earlier versions');
    expect((await readWorkbook(idOf(1)))?.document).toEqual(c);
    expect(await versionsOf(1)).toEqual([b, a]);
    expect((await listVersions(idOf(1))).map(({ at }) => at)).toEqual([FIRST + APART, FIRST]);
    expect(await takeIn(text)).toBe('all.ndjson: 0 added, 2 here already');
    expect(await versionsOf(1)).toEqual([b, a]);
    expect(await saveToText()).toBe(text);
  });

  test('a version from a file may not run by itself, even of a workbook that may', async () => {
    await save(a, b, c);
    const text = (await saveToText()).replace('export default 1;', "export default 'slipped in';");
    await clear();
    await save(a, c);
    expect(await takeIn(text)).toBe('all.ndjson: 0 added, 1 here already, with 1 earlier version');
    expect((await readWorkbook(idOf(1)))?.mayRun).toBe(true);
    expect((await listVersions(idOf(1))).map(({ mayRun }) => mayRun)).toEqual([false, true]);
  });

  test('of a workbook that goes on here, what the file has stays beside it, with its versions', async () => {
    await save(a, b, c);
    const text = await saveToText();
    await saveWorkbook(state(1, 3), 3, true);
    await takeIn(text);
    expect(await takeIn(text)).toBe('all.ndjson: 0 added, 1 here already');
    const { workbooks } = await readContents();
    const beside = workbooks.find(({ document }) => document.id !== idOf(1))!.document;
    const versions = await listVersions(beside.id);
    expect(versions.map(({ document }) => document.changed)).toEqual([b.changed, a.changed]);
    expect(await versionsOf(1)).toEqual([c, b, a]);
  });

  test('a deleted workbook is not in the file, nor are its versions', async () => {
    await save(a, b);
    await save(state(2, 0));
    await deleteWorkbook(idOf(1));
    const text = await saveToText();
    expect(text).not.toContain('Test 1');
    expect(text.trim().split('\n')).toHaveLength(2);
  });

  test('of a record without a readable cell the newest version comes back as the workbook', async () => {
    await save(a, b, c);
    const { database } = await openDatabase();
    await database.put('workbooks', { id: idOf(1), document: 'spoilt' } as never);
    const text = await saveToText();
    await clear();
    expect(await takeIn(text)).toContain('all.ndjson: 1 added, with 1 earlier version. Of “Test 1” only');
    const { workbooks } = await readContents();
    expect(workbooks.map(({ document }) => document.changed)).toEqual([b.changed]);
  });

  test('where there is no room for all versions the oldest are left out, whichever workbook they are of', async () => {
    const long = (number: number, turn: number) => state(number, turn, 'ü'.repeat(10_000)); // 20 kB
    await save(long(1, 0), long(1, 2), state(1, 3));
    await save(long(2, 1), state(2, 4));
    const most = 50_000;
    const { lines, leftOut } = await saveAll(await readContents(), '2026-03-04T05:06:07.000Z', most);
    expect(new Blob(lines).size).toBeLessThan(most);
    expect(leftOut).toContain('not the 1 oldest of their earlier versions');
    await clear();
    await takeIn(lines.join(''));
    expect([(await versionsOf(1)).length, (await versionsOf(2)).length]).toEqual([1, 1]);
    expect((await versionsOf(1))[0]).toEqual(long(1, 2));
  });
});
