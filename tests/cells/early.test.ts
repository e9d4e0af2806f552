import { expect, test } from 'vitest';
import * as early from '../../src/toolkit/early.ts';
import * as toolkit from '../../src/toolkit/index.ts';
import { isCellPath, nameInPath } from '../../src/workbook/names.ts';
import { readCell } from '../../src/workbook/readCell.ts';
import { cellsIn } from './workbook.ts';

const texts = cellsIn('athlete');

/** The cell and all it is made from. */
function withUpstream(cell: string): string[] {
  const upstream = readCell(texts.get(cell)!).parsed.imports.filter(({ from }) => isCellPath(from));
  return [cell, ...upstream.flatMap(({ from }) => withUpstream(nameInPath(from)))];
}

test('the first chart of a workbook waits for no more than the early toolkit', () => {
  const [first] = [...texts.keys()].filter((name) => /\bchart\(/.test(texts.get(name)!));
  const wanted = withUpstream(first!)
    .flatMap((cell) => readCell(texts.get(cell)!).parsed.imports)
    .filter(({ from }) => from === '#hourline')
    .flatMap(({ names }) => names.map(({ name }) => name));
  expect(wanted.length).toBeGreaterThan(5);
  expect(Object.keys(early)).toEqual(expect.arrayContaining(wanted));
});

test('the early toolkit is a part of the whole', () => {
  expect(toolkit).toMatchObject(early);
});
