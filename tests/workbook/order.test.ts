import { describe, expect, test } from 'vitest';
import { circles, reachedFrom, readersOf, runOrder } from '../../src/workbook/graph.ts';
import { makeWorkbook, openWorkbook } from './workbook.ts';

const uses = (edges: Record<string, string[]>) => new Map(Object.entries(edges));

describe('graph', () => {
  //   d → b → a     (each uses the next)
  //    ↘ c ↗
  const diamond = uses({ d: ['b', 'c'], c: ['a'], b: ['a'], a: [] });

  test('every cell comes after those it uses, else in the order of the workbook', () => {
    expect(runOrder(diamond)).toEqual(['a', 'b', 'c', 'd']);
    expect(runOrder(uses({ x: [], y: [], z: ['x'] }))).toEqual(['x', 'y', 'z']);
  });

  test('downstream is all that uses a cell, at whatever distance', () => {
    expect([...reachedFrom(readersOf(diamond), ['a'])].sort()).toEqual(['b', 'c', 'd']);
    expect([...reachedFrom(readersOf(diamond), ['d'])]).toEqual([]);
    expect([...reachedFrom(readersOf(uses({ a: ['gone'], b: ['a'] })), ['gone'])]).toEqual(['a', 'b']);
  });

  test('upstream is all that a cell uses, itself only in a circle', () => {
    expect([...reachedFrom(diamond, ['d'])].sort()).toEqual(['a', 'b', 'c']);
    expect([...reachedFrom(uses({ a: ['b'], b: ['a', 'z'] }), ['a'])].sort()).toEqual(['a', 'b', 'z']);
  });

  test('cells that are only downstream of a circle are not in it', () => {
    // c → a ⇄ b → z
    const found = circles(uses({ z: [], a: ['b'], b: ['a', 'z'], c: ['a'] }));
    expect([...found]).toEqual([
      ['a', ['a', 'b', 'a']],
      ['b', ['a', 'b', 'a']],
    ]);
  });
});

describe('order of runs', () => {
  // sum → double → base, written from the end to the beginning
  const texts = {
    sum: `import { double } from './double.ts'; import { base } from './base.ts'; export default base + double;`,
    double: `import { base } from './base.ts'; export const double = base * 2;`,
    base: 'export const base = 3;',
  };

  test('a cell may use cells that stand further down', async () => {
    const workbook = await openWorkbook(texts);
    expect(workbook.shown('sum')).toBe(9);
  });

  test('nothing runs before run(), and edits until then are only taken over', async () => {
    const workbook = makeWorkbook(texts);
    await workbook.engine.edit('base.ts', 'export const base = 4;');
    expect(workbook.ran()).toBe('');
    expect(workbook.engine.phases()).toEqual(['stale', 'stale', 'stale']);
    await workbook.engine.run();
    expect(workbook.ran()).toBe('sum double base');
    expect(workbook.shown('sum')).toBe(12);
  });

  test('moving a cell changes the order of the workbook and runs nothing', async () => {
    const order: string[][] = [];
    const workbook = await openWorkbook(texts, { onCells: (cells) => order.push(cells.map((c) => c.name)) });
    workbook.engine.move('base.ts', 0);
    await workbook.engine.run();
    expect(order).toEqual([['base.ts', 'sum.ts', 'double.ts']]);
    expect(workbook.ran()).toBe('');
  });
});

describe('saving before running', () => {
  test('after an edit the page saves before the first cell runs; for a control move it does not', async () => {
    const events: string[] = [];
    const workbook = await openWorkbook(
      {
        a: `import { slider } from '#toolkit'; export const s = slider({ label: 's', min: 0, max: 9, value: 1 });`,
        b: `import { s } from './a.ts'; export default s.value;`,
      },
      {
        beforeRun: async () => {
          await Promise.resolve();
          events.push(`save with b at ${workbook.state('b').phase}`);
        },
      },
    );
    await workbook.engine.edit('b.ts', `import { s } from './a.ts'; export default s.value + 1;`);
    expect(events).toEqual(['save with b at stale']);
    await workbook.engine.setControl('a.ts', 's', 5);
    expect(events).toHaveLength(1);
    expect(workbook.shown('b')).toBe(6);
  });

  test('edits while the page saves are saved too, and all run once', async () => {
    let saves = 0;
    const workbook = await openWorkbook(
      { a: 'export default 1;' },
      {
        beforeRun: async () => {
          saves += 1;
          if (saves === 1) void workbook.engine.edit('a.ts', 'export default 3;');
        },
      },
    );
    await workbook.engine.edit('a.ts', 'export default 2;');
    expect(saves).toBe(2);
    expect(workbook.ran()).toBe('a');
    expect(workbook.shown('a')).toBe(3);
  });

  test('a failed saving does not stop the workbook', async () => {
    const workbook = await openWorkbook(
      { a: 'export default 1;' },
      { beforeRun: () => Promise.reject(new Error('disk full')) },
    );
    await workbook.engine.edit('a.ts', 'export default 2;');
    expect(workbook.shown('a')).toBe(2);
  });
});
