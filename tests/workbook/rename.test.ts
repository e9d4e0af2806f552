import { describe, expect, test } from 'vitest';
import { readCell } from '../../src/workbook/readCell.ts';
import { renameImports } from '../../src/workbook/renameImports.ts';
import { breathe, gate, makeWorkbook, openWorkbook } from './workbook.ts';

describe('renameImports', () => {
  test.each([
    [
      `import  {a} from "./old.ts" ;// './old.ts'\r\n\tconst s = './old.ts';`,
      `import  {a} from "./new.ts" ;// './old.ts'\r\n\tconst s = './old.ts';`,
    ],
    [
      `export { a } from './old.ts'; export * as o from './old.ts'`,
      `export { a } from './new.ts'; export * as o from './new.ts'`,
    ],
    [
      `import type { A } from './old.ts'; type B = import('./old.ts').B;`,
      `import type { A } from './new.ts'; type B = import('./new.ts').B;`,
    ],
    [
      `import './old.ts'; import './older.ts'; import '../old.ts';`,
      `import './new.ts'; import './older.ts'; import '../old.ts';`,
    ],
    [`import { a } from './old.ts';\nbroken(`, `import { a } from './new.ts';\nbroken(`],
    ['const untouched = 1;', 'const untouched = 1;'],
  ])('%j', (text, expected) => {
    expect(renameImports(text, readCell(text).parsed, 'old.ts', 'new.ts')).toBe(expected);
  });
});

describe('renaming a cell', () => {
  // a → b → c
  const TEXTS = {
    a: 'export const a = 1;',
    b: `import {a}   from "./a.ts"; export const b = a; // keeps './a.ts'`,
    c: `import { b } from './b.ts'; export default b;`,
  };

  test('rewrites its readers and runs nothing', async () => {
    const workbook = await openWorkbook(TEXTS);
    await workbook.engine.rename('a.ts', 'first.ts');
    expect(workbook.ran()).toBe('first');
    expect(workbook.engine.cells().map((c) => c.name)).toEqual(['first.ts', 'b.ts', 'c.ts']);
    expect(workbook.state('b').text).toBe(
      `import {a}   from "./first.ts"; export const b = a; // keeps './a.ts'`,
    );
    await workbook.engine.edit('first.ts', 'export const a = 5;');
    expect(workbook.shown('c')).toBe(5);
    expect(workbook.ran()).toBe('first b c');
  });

  test('heals readers of the new name and lets readers that were not rewritten wait', async () => {
    const workbook = await openWorkbook({
      a: 'export const a = 1;',
      later: `import { a } from './z.ts'; export default a;`,
    });
    await workbook.engine.rename('a.ts', 'z.ts');
    expect(workbook.shown('later')).toBe(1);
  });

  test('a run in progress goes on, and its faults are placed', async () => {
    const open = gate();
    const libraries = { '#world': () => ({ open: open.promise }) };
    const workbook = makeWorkbook(
      { a: `import { open } from '#world';\nawait open;\nnone();`, b: `import './a.ts';` },
      { libraries },
    );
    const run = workbook.engine.run();
    await breathe();
    await Promise.race([workbook.engine.rename('a.ts', 'longer.ts'), breathe()]);
    open.open();
    await run;
    expect(workbook.state('longer').problem).toMatchObject({ message: 'none is not defined', line: 3 });
    expect(workbook.status('b')).toBe('waiting: This cell waits for longer.');
  });

  test('errors after a rename carry the new places', async () => {
    const workbook = await openWorkbook({
      ...TEXTS,
      b: `import {a} from './a.ts'; export const b = a; if (a > 1) none();`,
    });
    await workbook.engine.rename('a.ts', 'a-much-longer-name.ts');
    await workbook.engine.edit('a-much-longer-name.ts', 'export const a = 2;');
    expect(workbook.state('b').problem!.column).toBe(workbook.state('b').text.indexOf('none') + 1);
  });

  test('a circle through itself is renamed whole', async () => {
    const workbook = await openWorkbook({ a: `import './a.ts';` });
    await workbook.engine.rename('a.ts', 'b.ts');
    expect(workbook.status('b')).toContain('b → b');
  });
});
