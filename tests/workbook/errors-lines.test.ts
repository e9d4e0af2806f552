import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { breathe, openWorkbook } from './workbook.ts';

/** The problem of the only failing cell `a` among the others. */
async function problemOf(text: string, others: Record<string, string> = {}, libraries = {}) {
  const workbook = await openWorkbook({ a: text, ...others }, { libraries });
  expect(workbook.state('a').phase).toBe('failed');
  return workbook.state('a').problem!;
}

describe('errors while running', () => {
  test('carry the line and column of the cell itself', async () => {
    expect(await problemOf('const a = 1;\n\n  missing();')).toMatchObject({
      message: 'missing is not defined',
      line: 3,
      column: 3,
    });
  });

  test('on line 1 the column is that of the text too, behind types and imports', async () => {
    const text = `import { read } from '#toolkit'; const x: number | undefined = read({} as any)!; x.y;`;
    expect(await problemOf(text)).toMatchObject({ line: 1, column: text.indexOf('x.y') + 3 });
  });

  test('after an await the place is still known', async () => {
    expect(await problemOf('await null;\nthrow new Error("late");')).toMatchObject({
      message: 'late',
      line: 2,
      column: 7,
    });
  });

  test('inside a function of another cell the place is that of the call here', async () => {
    const problem = await problemOf(`import { f } from './f.ts';\n\nf();`, {
      f: `export const f = () => {\n\n\n throw new Error('deep'); };`,
    });
    expect(problem).toMatchObject({
      message: 'deep',
      line: 3,
      column: 1,
      hint: 'It happened in f, which this cell called.',
    });
  });

  test('deep inside a library the line of the cell is still found', async () => {
    const deep = (n: number): number => {
      if (n === 0) throw new InputError('Expected rising stages, got 3 after 5.');
      return deep(n - 1) + 1;
    };
    const problem = await problemOf(`import { deep } from 'lib';\ndeep(30);`, {}, { lib: () => ({ deep }) });
    expect(problem).toMatchObject({ message: 'Expected rising stages, got 3 after 5.', line: 2, hint: '' });
  });

  test.each([
    ['throw "text";', 'The cell threw text.'],
    ['throw Object.create(null);', 'The cell threw something that cannot be shown.'],
    ['throw null;', 'The cell threw null.'],
    ['throw new Error("");', 'Error'],
  ])('whatever is thrown is told: %s', async (text, message) => {
    expect((await problemOf(text)).message).toBe(message);
  });

  test.each([
    ['curve();', "Write import { curve } from './b.ts';"],
    ['slider();', "Write import { slider } from '#toolkit';"],
    ['curv();', "Did you mean curve? Write import { curve } from './b.ts';"],
    ['const readings = 1; readngs;', 'Did you mean readings?'],
    ['early; const early = 1;', 'Move the declaration of early above this line.'],
    ['const c = 1; c = 2;', 'Declare it with let to change it.'],
    ['const u = undefined; u.length;', 'What stands before .length is undefined here.'],
  ])('%s has the hint: %s', async (text, hint) => {
    const problem = await problemOf(`import { read } from '#toolkit';\n${text}`, {
      b: 'export const curve = 1;',
    });
    expect(problem.hint).toBe(hint);
    expect(problem.line).toBe(2);
  });
});

describe('errors in the text', () => {
  test.each([
    ['const a = 1;\nconst b = ;', "';' was not expected here.", 2, 11],
    ['foo(', 'The text ends too soon.', 1, 5],
    ['const a = 1;\nconst a = 2;', "Identifier 'a' has already been declared.", 2, 7],
    ['export const a = 1;\nexport { a };', "'a' is exported twice: a cell exports each name once.", 2, 10],
    [
      "import { b } from './b.ts';\nconst f = () => { b = 2; };",
      "'b' is imported and cannot be assigned to.",
      2,
      19,
    ],
    ["import { b } from './b.ts';\nb++;", "'b' is imported and cannot be assigned to.", 2, 1],
    ["import { b } from './b.ts';\n({ x: [b] } = {});", "'b' is imported and cannot be assigned to.", 2, 8],
    ["\nexport * from './b.ts';", 'export * cannot be used in a cell.', 2, 1],
    [
      "const b = await import('./b.ts');",
      'Another cell cannot be imported in the middle of the code.',
      1,
      17,
    ],
    ['return 1;', "'return' outside of function.", 1, 1],
    ['export default 1;\nexport default 2;', 'A second export default: a cell exports each name once.', 2, 1],
    ['#!/usr/bin/env node', "Unexpected character '!'.", 1, 2],
  ])('%j', async (text, message, line, column) => {
    expect(await problemOf(text, { b: 'export const b = 1;' })).toMatchObject({ message, line, column });
  });

  test.each([
    ['on its line', 'export default [\n  f`## One,\n  1,\n  f`## Two`,\n];', 4],
    ['in the line after', 'export default [\n  f`## One,\n  1,\n  f`\n    ## Two`,\n];', 5],
  ])('a backtick that is not closed is named where it begins: the fault is %s', async (_, text, line) => {
    expect(await problemOf(text)).toMatchObject({
      message: "Unexpected character '#'.",
      hint: 'The text in backticks before this began in line 2: its own closing backtick may be missing.',
      line,
    });
  });

  test('a fault after texts that are closed gets no such hint', async () => {
    expect((await problemOf('const a = `x\ny`;\nconst b = ;')).hint).toBe('');
  });

  test('a name that hides an import may be assigned to', async () => {
    const texts = {
      b: 'export const b = 1;',
      a: `import { b } from './b.ts'; const f = (b) => { b = 2; return b; };
{ let b = 1; b = 5; } for (let b = 0; b < 2; b++); try { throw 1 } catch (b) { b = 3 }
function g() { if (b) { var b = 1; } b = 4; return b } export default [f(0), g(), b];`,
    };
    expect((await openWorkbook(texts)).shown('a')).toEqual([2, 4, 1]);
  });
});

describe('errors stay where they are', () => {
  // a → b → c;  x
  const TEXTS = {
    a: 'export const a = 1;',
    b: `import { a } from './a.ts';\nexport const b = a;`,
    c: `import { b } from './b.ts'; export default b;`,
    x: 'export default 1;',
  };

  test('downstream says what it waits for and where the fault is, and keeps showing what it showed', async () => {
    const workbook = await openWorkbook(TEXTS);
    await workbook.engine.edit('a.ts', 'throw new Error("no"); export const a = 1;');
    expect(workbook.state('b').problem).toMatchObject({
      message: 'This cell waits for a.',
      hint: 'a failed: no',
      line: 1,
      column: 1,
    });
    expect(workbook.state('c').problem).toMatchObject({
      message: 'This cell waits for b.',
      hint: 'a failed: no',
    });
    expect(workbook.shown('c')).toBe(1);
    expect(workbook.status('x')).toBe('done');
  });

  test('what the reader has yet to enter is no fault: all downstream asks for it and shows nothing earlier', async () => {
    const workbook = await openWorkbook(TEXTS);
    const asks = 'throw Object.assign(new Error("Enter a number."), { notYet: true }); export const a = 1;';
    await workbook.engine.edit('a.ts', asks);
    for (const name of ['a', 'b', 'c']) expect(workbook.status(name)).toBe('waiting: Enter a number.');
    expect(workbook.state('c').problem).toMatchObject({ hint: '', line: null, notYet: true });
    expect(workbook.shown('c')).toBeUndefined();
    expect(workbook.status('x')).toBe('done');
    await workbook.engine.edit('a.ts', 'export const a = 2;');
    expect(workbook.shown('c')).toBe(2);
  });

  test('mending the cell heals all that waited', async () => {
    const workbook = await openWorkbook({ ...TEXTS, a: 'export const a = ;' });
    await workbook.engine.edit('a.ts', 'export const a = 2;');
    expect(workbook.ran()).toBe('a b c');
    expect(workbook.shown('c')).toBe(2);
    expect(workbook.state('c').problem).toBeNull();
  });

  test('a failed cell does not run again before something it reads changes', async () => {
    const workbook = await openWorkbook({
      ...TEXTS,
      c: `import { b } from './b.ts'; if (b < 5) throw new Error('small');`,
    });
    await workbook.engine.edit('x.ts', 'export default 2;');
    expect(workbook.ran()).toBe('x');
    await workbook.engine.edit('a.ts', 'export const a = 6;');
    expect(workbook.ran()).toBe('a b c');
    expect(workbook.status('c')).toBe('done');
  });

  test('export let warns, and readers get the value at the end of the run', async () => {
    const workbook = await openWorkbook({
      n: 'export let n = 1;\nn = 2;',
      r: `import { n } from './n.ts'; export default n;`,
    });
    expect(workbook.shown('r')).toBe(2);
    expect(workbook.state('n').warnings[0]).toMatchObject({
      line: 1,
      message: 'Readers of n get the value it has when this cell has finished.',
    });
  });

  test('a page that throws while it is told does not stop the workbook', async () => {
    // The fault surfaces as an uncaught one; here it is caught in place of the test runner's own listeners.
    const listeners = process.listeners('uncaughtException');
    const faults: unknown[] = [];
    process.removeAllListeners('uncaughtException');
    process.on('uncaughtException', (fault) => faults.push(fault));
    const onState = (state: { name: string }) => {
      if (state.name === 'a.ts') throw new Error('page');
    };
    const workbook = await openWorkbook({ a: 'export default 1;', b: 'export default 2;' }, { onState });
    await breathe();
    process.removeAllListeners('uncaughtException');
    for (const listener of listeners) process.on('uncaughtException', listener);
    expect(workbook.shown('b')).toBe(2);
    expect(faults).toEqual([new Error('page'), new Error('page')]);
  });
});
