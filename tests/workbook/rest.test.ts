import { expect, test } from 'vitest';
import { breathe, gate, makeWorkbook } from './workbook.ts';

// a → b → c
const TEXTS = {
  a: 'export const a = 1;',
  b: `import { a } from './a.ts'; export const b = a + 1;`,
  c: `import { b } from './b.ts'; export default b;`,
};

test('a page that asks for a rest sees each result before the next cell runs', async () => {
  const first = gate();
  const rests = [first.promise, null, null];
  const workbook = makeWorkbook(TEXTS, { rest: () => rests.shift() ?? null });
  const done = workbook.engine.run();
  await breathe();
  expect(workbook.engine.states().map((state) => state.phase)).toEqual(['done', 'stale', 'stale']);
  first.open();
  await done;
  expect(workbook.engine.state('c.ts').shown).toBe(2);
  expect(workbook.engine.states().map((state) => state.runs)).toEqual([1, 1, 1]);
});

test('an edit during the rest wins, and nothing runs twice', async () => {
  const first = gate();
  const rests: (Promise<void> | null)[] = [first.promise];
  const workbook = makeWorkbook(TEXTS, { rest: () => rests.shift() ?? null });
  const done = workbook.engine.run();
  await breathe();
  await workbook.engine.edit('a.ts', 'export const a = 10;');
  first.open();
  await done;
  expect(workbook.engine.state('c.ts').shown).toBe(11);
  expect(workbook.engine.states().map((state) => state.runs)).toEqual([2, 1, 1]);
});
