import { describe, expect, test } from 'vitest';
import type { StoredWorkbook } from '../../../src/host/database.ts';
import { athleteOf } from '../../../src/host/library/athleteOf.ts';
import { differenceInWords } from '../../../src/host/library/difference.ts';
import { groupByAthlete } from '../../../src/host/library/groups.ts';
import { mergeLibrary } from '../../../src/host/library/merge.ts';
import { readRecord, salvage, titleOf } from '../../../src/host/library/record.ts';
import { sizeInWords } from '../../../src/host/library/space.ts';
import { athlete } from '../../../src/host/shipped.ts';
import type { WorkbookDocument } from '../../../src/workbook/document.ts';
import { ID, workbook } from './workbook.ts';

const stored = (document: WorkbookDocument): StoredWorkbook => ({ document, revision: 1, mayRun: true });

const naming = (code: string) => ({
  name: 'athlete.ts',
  text: `export const code = athleteField('${code}');\n`,
});

describe('whose workbook it is', () => {
  test('the code that the athlete field starts with, in the shipped workbook', () => {
    expect(athleteOf(workbook({ cells: athlete }))).toBe('C-01');
  });

  test('the code the reader entered, as long as the field still starts from what it started from then', () => {
    const settings = { '10-athlete.ts#code': { value: ' K-7 ', from: '"C-01"' } };
    expect(athleteOf(workbook({ cells: athlete, settings }))).toBe('K-7');
    const other = { '10-athlete.ts#code': { value: 'K-7', from: '"B-2"' } };
    expect(athleteOf(workbook({ cells: athlete, settings: other }))).toBe('C-01');
  });

  test('none without a field, with an empty one, or with an entry that is no text', () => {
    expect(athleteOf(workbook())).toBe('');
    expect(athleteOf(workbook({ cells: [naming('')] }))).toBe('');
    const settings = { 'athlete.ts#code': { value: { a: 1 }, from: '"C-1"' } };
    expect(athleteOf(workbook({ cells: [naming('C-1')], settings }))).toBe('');
  });

  test('groups go by code, C-9 before C-10, those without one last; in a group the order stays', () => {
    const of = (code: string, title: string) => stored(workbook({ title, cells: [naming(code)] }));
    const all = [of('', 'a'), of('C-10', 'b'), of('C-9', 'c'), of('C-10', 'd')];
    const groups = groupByAthlete(all);
    expect(groups.map((group) => [group.athlete, group.workbooks.map((one) => one.document.title)])).toEqual([
      ['C-9', ['c']],
      ['C-10', ['b', 'd']],
      ['', ['a']],
    ]);
  });

  test('every word of the search must be in title or code', () => {
    const of = (code: string, title: string) => stored(workbook({ title, cells: [naming(code)] }));
    const all = [of('C-1', 'Autumn test'), of('C-2', 'Autumn test'), of('C-2', 'Spring test')];
    const found = (search: string) =>
      groupByAthlete(all, search).flatMap((group) => group.workbooks.map((one) => one.document.title));
    expect(found(' c-2  AUTUMN ')).toEqual(['Autumn test']);
    expect(found('')).toHaveLength(3);
    expect(found('winter')).toEqual([]);
  });
});

describe('merging', () => {
  const edited = workbook({ cells: [{ name: 'one.ts', text: 'export default 2;\n' }] });

  test('what is not here is added under its id', () => {
    expect(mergeLibrary([], [workbook()], new Set())).toEqual({
      added: [workbook()],
      beside: [],
      alike: 0,
      found: new Map([[ID, ID]]),
    });
  });

  test('the same text and title are not added again under whatever id, nor the same workbook renamed here', () => {
    const elsewhere = workbook({ id: ID.replace('0', 'e') });
    const here = (id: string) => ({ added: [], beside: [], alike: 1, found: new Map([[ID, id]]) });
    expect(mergeLibrary([elsewhere], [workbook()], new Set([elsewhere.id]))).toEqual(here(elsewhere.id));
    expect(mergeLibrary([workbook({ title: 'Renamed' })], [workbook()], new Set([ID]))).toEqual(here(ID));
  });

  test('the same text under another title is another workbook', () => {
    const other = workbook({ id: ID.replace('0', 'e'), title: 'Of another athlete' });
    expect(mergeLibrary([workbook()], [other], new Set([ID])).added).toEqual([other]);
  });

  test('another state of a workbook that is here stays beside it, newer or older; a second time it is alike', () => {
    const merge = mergeLibrary([workbook()], [edited], new Set([ID]));
    expect(merge.added).toEqual([]);
    expect(merge.beside).toMatchObject([
      { title: 'Step test (from a file, as of 2026-02-03 04:05)', cells: edited.cells },
    ]);
    const { id } = merge.beside[0]!;
    expect(id).not.toBe(ID);
    expect(merge.found).toEqual(new Map([[ID, id]]));
    const again = mergeLibrary([workbook(), ...merge.beside], [edited], new Set([ID, id]));
    expect(again).toEqual({ added: [], beside: [], alike: 1, found: new Map([[ID, id]]) });
  });

  test('the id of a deleted or damaged workbook is not written over', () => {
    const merge = mergeLibrary([], [edited], new Set([ID]));
    expect(merge.beside).toHaveLength(1);
  });
});

describe('records of the database', () => {
  const record = { id: ID, document: workbook(), revision: 3, mayRun: true };

  test('a good one is read, a deleted one with its date', () => {
    expect(readRecord(record)).toEqual({ document: workbook(), revision: 3, mayRun: true });
    expect(readRecord({ ...record, deleted: '2026-03-01T00:00:00.000Z' })?.deleted).toBe(
      '2026-03-01T00:00:00.000Z',
    );
  });

  test.each([
    ['nothing', undefined],
    ['no document', { ...record, document: null }],
    ['another form', { ...record, document: { ...workbook(), format: 'hourline-workbook-9' } }],
    ['cells that are none', { ...record, document: { ...workbook(), cells: 'x' } }],
    ['one bad cell', { ...record, document: { ...workbook(), cells: [{ name: 'one.ts', text: 7 }] } }],
    ['no revision', { ...record, revision: undefined }],
  ])('%s is damaged', (_, raw) => {
    expect(readRecord(raw)).toBeNull();
  });

  test('of a damaged one, every cell and setting that can be read is saved', () => {
    const good = { value: 5, from: '4' };
    const cells = [
      { name: 'one.ts', text: 'export default 1;\n' },
      { name: 'two.ts', text: null },
      'x',
      { name: 'one.ts', text: 'again' },
    ];
    const raw = {
      ...record,
      document: { ...workbook(), cells, settings: { 'one.ts#a': good, 'one.ts#b': 9 } },
    };
    expect(readRecord(raw)).toBeNull();
    expect(salvage(raw)).toMatchObject({
      title: 'Step test (what could be read)',
      cells: [{ name: 'one.ts', text: 'export default 1;\n' }],
      settings: { 'one.ts#a': good },
    });
    expect(salvage(raw)!.id).not.toBe(ID);
    expect(Object.keys(salvage(raw)!.settings)).toEqual(['one.ts#a']);
  });

  test('of one without a readable cell nothing is made up', () => {
    expect(salvage({ ...record, document: { title: 'T' } })).toBeNull();
    expect(salvage(undefined)).toBeNull();
    expect(titleOf(undefined)).toBe('A workbook without a title');
  });
});

describe('words', () => {
  test('in what a version differs', () => {
    const two = [...workbook().cells, { name: 'two.ts', text: '' }];
    expect(differenceInWords(workbook(), workbook())).toBe('as it is now');
    expect(
      differenceInWords(workbook({ cells: [{ name: 'one.ts', text: '' }], title: 'T' }), workbook()),
    ).toBe('another title, 1 cell with another text');
    expect(differenceInWords(workbook({ cells: two }), workbook())).toBe('1 cell since deleted');
    expect(differenceInWords(workbook(), workbook({ cells: two }))).toBe('1 cell fewer');
    const settings = { 'one.ts#a': { value: 1, from: '0' } };
    expect(differenceInWords(workbook({ settings }), workbook())).toBe('1 other entry');
  });

  test('sizes', () => {
    expect([0, 1_234, 1_234_567, 23_456_789, 5e9].map(sizeInWords)).toEqual([
      '0.0 KB',
      '1.2 KB',
      '1.2 MB',
      '23 MB',
      '5.0 GB',
    ]);
  });
});
