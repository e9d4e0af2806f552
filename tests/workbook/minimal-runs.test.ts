import { describe, expect, test } from 'vitest';
import { openWorkbook } from './workbook.ts';

//   a → b → d → e
//    ↘ c ↗
//   x → y          (not connected)
const DIAMOND = {
  a: 'export const a = 1;',
  b: `import { a } from './a.ts'; export const b = a + 1;`,
  c: `import { a } from './a.ts'; export const c = a + 2;`,
  d: `import { b } from './b.ts'; import { c } from './c.ts'; export const d = b + c;`,
  e: `import { d } from './d.ts'; export default d;`,
  x: 'export const x = 1;',
  y: `import { x } from './x.ts'; export default x;`,
};

describe('an edit', () => {
  test('runs the cell and its downstream once each, and nothing else', async () => {
    const workbook = await openWorkbook(DIAMOND);
    await workbook.engine.edit('a.ts', 'export const a = 10;');
    expect(workbook.ran()).toBe('a b c d e');
    expect(workbook.shown('e')).toBe(23);
  });

  test('in the middle leaves the upstream alone', async () => {
    const workbook = await openWorkbook(DIAMOND);
    await workbook.engine.edit('c.ts', `import { a } from './a.ts'; export const c = a + 20;`);
    expect(workbook.ran()).toBe('c d e');
  });

  test('several edits made together are one batch', async () => {
    const workbook = await openWorkbook(DIAMOND);
    const edits = ['b', 'c'].map((n) => workbook.engine.edit(`${n}.ts`, `export const ${n} = 5;`));
    await Promise.all(edits);
    expect(workbook.ran()).toBe('b c d e');
    expect(workbook.shown('e')).toBe(10);
  });

  test('two edits of one cell made together run the last text only', async () => {
    const workbook = await openWorkbook(DIAMOND);
    void workbook.engine.edit('x.ts', 'export const x = 2;');
    await workbook.engine.edit('x.ts', 'export const x = 3;');
    expect(workbook.ran()).toBe('x y');
    expect(workbook.shown('y')).toBe(3);
  });

  test('with the same text does nothing', async () => {
    const workbook = await openWorkbook(DIAMOND);
    await workbook.engine.edit('a.ts', DIAMOND.a);
    expect(workbook.ran()).toBe('');
    expect(workbook.told).toEqual([]);
  });

  test('that adds an import makes the cell follow from then on', async () => {
    const workbook = await openWorkbook(DIAMOND);
    await workbook.engine.edit(
      'y.ts',
      `import { x } from './x.ts'; import { a } from './a.ts'; export default x + a;`,
    );
    workbook.ran();
    await workbook.engine.edit('a.ts', 'export const a = 7;');
    expect(workbook.ran()).toBe('a b c d e y');
  });
});

describe('what the page is told', () => {
  test('one state for each cell of a batch that runs without waiting', async () => {
    const workbook = await openWorkbook(DIAMOND);
    await workbook.engine.edit('a.ts', 'export const a = 10;');
    expect(workbook.told.map((s) => `${s.name} ${s.phase}`)).toEqual([
      'a.ts done',
      'b.ts done',
      'c.ts done',
      'd.ts done',
      'e.ts done',
    ]);
  });

  test('a state object stays the same as long as nothing in it has changed', async () => {
    const workbook = await openWorkbook(DIAMOND);
    const [x, e] = [workbook.state('x'), workbook.state('e')];
    await workbook.engine.edit('a.ts', 'export const a = 10;');
    expect(workbook.state('x')).toBe(x);
    expect(workbook.state('e')).not.toBe(e);
  });

  test('downstream is told in the order of the workbook', async () => {
    const workbook = await openWorkbook(DIAMOND);
    expect(workbook.engine.downstream('b.ts')).toEqual(['d.ts', 'e.ts']);
  });

  test('durations come from the clock in the options', async () => {
    let time = 0;
    const workbook = await openWorkbook({ a: '' }, { now: () => (time += 5) });
    expect(workbook.state('a').milliseconds).toBe(5);
  });
});
