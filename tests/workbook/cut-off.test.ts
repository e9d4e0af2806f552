import { describe, expect, test } from 'vitest';
import { sameValue } from '../../src/workbook/sameValue.ts';
import { openWorkbook } from './workbook.ts';

describe('sameValue', () => {
  const plain = () => ({
    a: [1, { b: 'x' }],
    n: Number.NaN,
    t: new Float64Array([1, Number.NaN]),
    none: null,
  });

  test('plain data and typed arrays are compared by their contents', () => {
    expect(sameValue(plain(), plain())).toBe(true);
    expect(sameValue({ ...plain(), n: 1 }, plain())).toBe(false);
    expect(sameValue(new Float64Array([1]), new Float64Array([2]))).toBe(false);
    expect(sameValue([1, 2], [1, 2, 3])).toBe(false);
    expect(sameValue({ a: undefined }, { b: undefined })).toBe(false);
    expect(sameValue(new Float64Array([1]), new Float32Array([1]))).toBe(false);
    expect(sameValue(0, -0)).toBe(false);
  });

  test('functions, class instances and objects with getters are the same only when they are the very same', () => {
    const f = () => 1;
    class Point {}
    expect(sameValue({ f }, { f })).toBe(true);
    expect(sameValue({ f }, { f: () => 1 })).toBe(false);
    expect(sameValue(new Point(), new Point())).toBe(false);
    expect(sameValue(new Map(), new Map())).toBe(false);
    const lazy = () => ({
      get value() {
        throw new Error('must not be looked at');
      },
    });
    expect(sameValue(lazy(), lazy())).toBe(false);
  });

  test('circular and heavily shared data ends', () => {
    const ring = () => {
      const a: { self?: unknown; n: number } = { n: 1 };
      a.self = a;
      return a;
    };
    const shared = () => Array.from({ length: 40 }).reduce<unknown[]>((inner) => [inner, inner], [1]);
    expect(sameValue(ring(), ring())).toBe(true);
    expect(sameValue(shared(), shared())).toBe(true);
    const deep = () => Array.from({ length: 1000 }).reduce<unknown[]>((inner) => [inner], [1]);
    expect(sameValue(deep(), deep())).toBe(false);
  });
});

describe('cut-off', () => {
  // rows → mean → report; rows → names
  const TEXTS = {
    rows: 'export const rows = [{ x: 1 }, { x: 3 }]; export const unit = "W";',
    mean: `import { rows } from './rows.ts'; export const mean = (rows[0].x + rows[1].x) / 2;`,
    report: `import { mean } from './mean.ts'; export default mean;`,
    unit: `import { unit } from './rows.ts'; export default unit;`,
  };

  test('readers of an unchanged result do not run', async () => {
    const workbook = await openWorkbook(TEXTS);
    await workbook.engine.edit(
      'rows.ts',
      'export const rows = [{ x: 0 }, { x: 4 }]; export const unit = "W";',
    );
    expect(workbook.ran()).toBe('rows mean');
    expect(workbook.status('report')).toBe('done');
  });

  test('only the imported names count', async () => {
    const workbook = await openWorkbook(TEXTS);
    await workbook.engine.edit(
      'rows.ts',
      'export const rows = [{ x: 1 }, { x: 3 }]; export const unit = "km/h";',
    );
    expect(workbook.ran()).toBe('rows unit');
  });

  test('an import of everything counts all names', async () => {
    const workbook = await openWorkbook({
      ...TEXTS,
      all: `import * as all from './rows.ts'; export default all.rows.length;`,
    });
    await workbook.engine.edit('rows.ts', `${TEXTS.rows} // the same`);
    expect(workbook.ran()).toBe('rows');
    await workbook.engine.edit(
      'rows.ts',
      'export const rows = [{ x: 1 }, { x: 3 }]; export const unit = "km/h";',
    );
    expect(workbook.ran()).toBe('rows unit all');
  });

  test('a new function counts as changed', async () => {
    const workbook = await openWorkbook({
      f: 'export const f = () => 1;',
      g: `import { f } from './f.ts'; export default f();`,
    });
    await workbook.engine.edit('f.ts', 'export const f = () => 1; // the same');
    expect(workbook.ran()).toBe('f g');
  });

  test('cells that were found unchanged are not told about', async () => {
    const workbook = await openWorkbook(TEXTS);
    workbook.told.length = 0;
    await workbook.engine.edit(
      'rows.ts',
      'export const rows = [{ x: 0 }, { x: 4 }]; export const unit = "W";',
    );
    expect(workbook.told.map((s) => s.name)).toEqual(['rows.ts', 'mean.ts']);
  });

  test('an upstream that breaks and is mended to the same result leaves its readers as they were', async () => {
    const workbook = await openWorkbook(TEXTS);
    await workbook.engine.edit('mean.ts', 'export const mean = ');
    expect(workbook.status('report')).toBe(`waiting: This cell waits for mean.`);
    expect(workbook.shown('report')).toBe(2);
    workbook.ran();
    await workbook.engine.edit('mean.ts', TEXTS.mean);
    expect(workbook.ran()).toBe('mean');
    expect(workbook.status('report')).toBe('done');
  });
});
