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
  const rests = [null, first.promise];
  const workbook = makeWorkbook(TEXTS, { rest: () => rests.shift() ?? null });
  const done = workbook.engine.run();
  await breathe();
  expect(workbook.engine.phases()).toEqual(['done', 'stale', 'stale']);
  first.open();
  await done;
  expect(workbook.engine.state('c.ts').shown).toBe(2);
  expect(workbook.engine.states().map((state) => state.runs)).toEqual([1, 1, 1]);
});

test('an edit during the rest wins, and nothing runs twice', async () => {
  const first = gate();
  const rests = [null, first.promise];
  const workbook = makeWorkbook(TEXTS, { rest: () => rests.shift() ?? null });
  const done = workbook.engine.run();
  await breathe();
  await workbook.engine.edit('a.ts', 'export const a = 10;');
  first.open();
  await done;
  expect(workbook.engine.state('c.ts').shown).toBe(11);
  expect(workbook.engine.states().map((state) => state.runs)).toEqual([2, 1, 1]);
});

test('cells in sight go first, with what they need; the others wait as long as the page says', async () => {
  const ran: string[] = [];
  const still = gate();
  let waited = false;
  const workbook = makeWorkbook(
    { ...TEXTS, d: `import { a } from './a.ts'; export default a * 100;` },
    {
      inSight: () => ['d.ts'],
      rest: (seen) => {
        if (seen || waited) return null;
        waited = true;
        return still.promise;
      },
      onState: ({ name, phase }) => {
        if (phase === 'done') ran.push(name);
      },
    },
  );
  const done = workbook.engine.run();
  await breathe();
  expect(workbook.engine.phases()).toEqual(['done', 'stale', 'stale', 'done']);
  still.open();
  await done;
  expect(ran).toEqual(['a.ts', 'd.ts', 'b.ts', 'c.ts']);
});

test('changes while cells out of sight wait leave one pass behind, not one each', async () => {
  const gates = [gate(), gate(), gate()];
  let asked = 0;
  const workbook = makeWorkbook(TEXTS, {
    inSight: () => ['a.ts'],
    rest: (seen) => (seen ? null : (gates[asked++]?.promise ?? null)),
  });
  void workbook.engine.run();
  await breathe();
  void workbook.engine.edit('a.ts', 'export const a = 2;');
  await breathe();
  const done = workbook.engine.edit('a.ts', 'export const a = 3;');
  await breathe();
  expect(asked).toBe(3);
  for (const one of gates) one.open();
  await done;
  expect(asked).toBe(5); // once more for b and for c
  expect(workbook.engine.states().map((state) => state.runs)).toEqual([3, 1, 1]);
  expect(workbook.engine.state('c.ts').shown).toBe(4);
});

test('a control that moved has had its effect when what is in sight has run', async () => {
  const still = gate();
  const workbook = makeWorkbook(
    {
      a: `import { slider } from '#toolkit'; export const a = slider({ label: 'a', min: 0, max: 9, value: 1 });`,
      b: `import { a } from './a.ts'; export default a.value;`,
      c: `import { a } from './a.ts'; export default a.value * 10;`,
    },
    { inSight: () => ['c.ts'], rest: (seen) => (seen ? null : still.promise) },
  );
  void workbook.engine.run();
  await breathe();
  await workbook.engine.setControl('a.ts', 'a', 2);
  expect(
    workbook.engine
      .states()
      .map(({ shown, phase }) => [shown, phase])
      .slice(1),
  ).toEqual([
    [undefined, 'stale'],
    [20, 'done'],
  ]);
});
