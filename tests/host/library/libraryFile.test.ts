import { describe, expect, test } from 'vitest';
import {
  headLine,
  isLibraryFile,
  readLibrary,
  versionLine,
  workbookLine,
} from '../../../src/host/library/libraryFile.ts';
import type { WorkbookDocument } from '../../../src/workbook/document.ts';
import { ID, workbook } from './workbook.ts';

describe('everything in one file', () => {
  const SAVED = '2026-03-04T05:06:07.000Z';
  const lines = (documents: WorkbookDocument[], versions: WorkbookDocument[] = []) => [
    headLine(SAVED, documents.length, versions.length),
    ...documents.map(workbookLine),
    ...versions.map((version) => versionLine(version.id, version)),
  ];
  const earlier = (day: number, change: Partial<WorkbookDocument> = {}) =>
    workbook({ changed: `2026-01-${String(day).padStart(2, '0')}T04:05:06.000Z`, ...change });

  test('comes back as it was, ids included', () => {
    const documents = [workbook(), workbook({ id: ID.replace('0', 'f'), title: 'Zwei\nZeilen "ü" \u2028' })];
    const text = lines(documents).join('');
    expect(isLibraryFile(text)).toBe(true);
    expect(readLibrary(text, 'all.ndjson')).toEqual({
      workbooks: documents,
      versions: new Map(),
      refused: [],
    });
  });

  test('earlier versions come back with their dates, newest first', () => {
    const versions = [earlier(2), earlier(9, { title: 'Called so then' }), earlier(5)];
    const read = readLibrary(lines([workbook()], versions).join(''), 'all.ndjson');
    expect(read.workbooks).toEqual([workbook()]);
    expect(read.versions.get(ID)).toEqual([versions[1], versions[2], versions[0]]);
    expect(read.refused).toEqual([]);
  });

  test('a file from before versions were in it is read as it was', () => {
    const head = `{"form":"hourline-library-1","saved":"${SAVED}","workbooks":2}\n`;
    const read = readLibrary(head + workbookLine(workbook()), 'old.ndjson');
    expect(read.workbooks).toEqual([workbook()]);
    expect(read.refused).toEqual(['old.ndjson is cut off: 1 of 2 workbooks are missing']);
  });

  test('a damaged version costs that version; one that belongs to no workbook is named', () => {
    const [head, whole, first, second] = lines([workbook()], [earlier(2), earlier(3)]);
    const strange = second!.replace(ID, '__proto__');
    const bad = second!.replace('"cells":[', '"cells":[7,');
    const read = readLibrary(head! + whole + first!.slice(9) + strange + bad + second, 'f');
    expect(read.versions.get(ID)).toEqual([earlier(3)]);
    expect(read.refused).toEqual([
      'line 3 of f is damaged: it is not valid JSON',
      'line 4 of f is damaged: it does not say whose version it is',
      'line 5 of f is damaged: its cells cannot be read',
    ]);
  });

  test('a file that is cut off among the versions says how many', () => {
    const all = lines([workbook(), workbook()], [earlier(2), earlier(3), earlier(4)]);
    const cut = (count: number) => readLibrary(all.slice(0, count).join(''), 'f').refused;
    expect(cut(5)).toEqual(['f is cut off: 1 of 3 earlier versions are missing']);
    expect(cut(2)).toEqual(['f is cut off: 1 of 2 workbooks and 3 of 3 earlier versions are missing']);
  });

  test('the newest version takes the place of a workbook that cannot be read', () => {
    const [head, , ...versions] = lines([workbook()], [earlier(2), earlier(4), earlier(3)]);
    const read = readLibrary([head, '{"damaged\n', ...versions].join(''), 'f');
    expect(read.workbooks).toEqual([earlier(4)]);
    expect(read.versions.get(ID)).toEqual([earlier(3), earlier(2)]);
    expect(read.refused).toEqual([
      'line 2 of f is damaged: it is not valid JSON',
      'Of “Step test” only earlier versions can be read: the newest takes its place',
    ]);
  });

  test('more versions than are kept of one workbook are left, the oldest first, which is said', () => {
    const texts = Array.from({ length: 6 }, (_, i) =>
      earlier(i + 1, { cells: [{ name: 'one.ts', text: 'x'.repeat(900_000) }] }),
    );
    const read = readLibrary(lines([workbook()], texts).join(''), 'f');
    expect(read.versions.get(ID)).toEqual(texts.slice(2).reverse());
    expect(read.refused).toEqual([
      'Of “Step test” the newest 4 of 6 earlier versions were taken: more are not kept of one workbook',
    ]);
  });

  test('of a thousand damaged lines a few are named, and a damaged first line costs nothing else', () => {
    const text = `${'{"form":"hourline-library-1",\n'}${workbookLine(workbook())}${'x\n'.repeat(1000)}`;
    expect(isLibraryFile(text)).toBe(true);
    const { workbooks, refused } = readLibrary(text, 'f');
    expect(workbooks).toEqual([workbook()]);
    expect(refused).toHaveLength(7);
    expect(refused.slice(5)).toEqual([
      'And 995 more like these',
      'line 1 of f is damaged: whether all is there cannot be told',
    ]);
  });

  test('a damaged line costs one workbook and is named; a file that is cut off says so', () => {
    const [head, first, second, third] = lines([workbook(), workbook(), workbook()]);
    const { workbooks, refused } = readLibrary(head! + first + second!.slice(20) + third, 'all.ndjson');
    expect(workbooks).toHaveLength(2);
    expect(refused).toEqual(['line 3 of all.ndjson is damaged: it is not valid JSON']);
    const cut = readLibrary(head! + first, 'all.ndjson');
    expect(cut.refused).toEqual(['all.ndjson is cut off: 2 of 3 workbooks are missing']);
  });

  test('one in which nothing can be read is refused with a sentence', () => {
    const [head] = lines([]);
    expect(() => readLibrary(head!, 'all.ndjson')).toThrow('all.ndjson holds no workbook');
    expect(() => readLibrary(`${head}{"format":7}\n`, 'all.ndjson')).toThrow(
      /^line 2 of all.ndjson holds a workbook of the form “7”/,
    );
  });

  test('an id that is none of ours is not taken over', () => {
    const text = lines([workbook({ id: '__proto__' })]).join('');
    expect(readLibrary(text, 'f').workbooks[0]!.id).toMatch(/^[0-9a-f]{32}$/);
  });
});
