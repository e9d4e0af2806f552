import { expect, test } from 'vitest';
import { openWorkbook } from './workbook.ts';

// a → b → a (circle), c → a, z
const TEXTS = {
  a: `export const a = 1;\nimport { b } from './b.ts';`,
  b: `import { a } from './a.ts'; export const b = 1;`,
  c: `import { a } from './a.ts'; export default a;`,
  z: 'export default 1;',
};

test('each member names the path and the line of its import; the others only wait', async () => {
  const workbook = await openWorkbook(TEXTS);
  const message = 'These cells import each other in a circle: a → b → a.';
  expect(workbook.state('a')).toMatchObject({ phase: 'failed', problem: { message, line: 2, column: 1 } });
  expect(workbook.state('b')).toMatchObject({ phase: 'failed', problem: { message, line: 1, column: 1 } });
  expect(workbook.status('c')).toBe('waiting: This cell waits for a.');
  expect(workbook.status('z')).toBe('done');
});

test('a circle that is opened heals, and one that is closed stops its members', async () => {
  const workbook = await openWorkbook(TEXTS);
  await workbook.engine.edit('a.ts', 'export const a = 3;');
  expect(workbook.ran()).toBe('a b c');
  expect(workbook.shown('c')).toBe(3);
  await workbook.engine.edit('a.ts', TEXTS.a);
  expect(workbook.status('b')).toContain('a → b → a');
  expect(workbook.ran()).toBe('');
});

test('a cell that imports itself is a circle of one', async () => {
  const workbook = await openWorkbook({ a: `import { a } from './a.ts'; export const b = 1;` });
  expect(workbook.status('a')).toContain('a → a');
});

test('in two circles each member tells one that goes through it', async () => {
  // a ⇄ b ⇄ c
  const workbook = await openWorkbook({
    a: `import './b.ts';`,
    b: `import './a.ts'; import './c.ts';`,
    c: `import './b.ts';`,
  });
  expect(workbook.status('a')).toContain('a → b → a');
  expect(workbook.status('c')).toContain('b → c → b');
});

test('a circle with a broken text in it is broken, not waiting for itself', async () => {
  const workbook = await openWorkbook({ ...TEXTS, b: `import { a } from './a.ts'; export const b = ;` });
  expect(workbook.status('b')).toBe("failed: ';' was not expected here.");
  expect(workbook.status('a')).toBe('waiting: This cell waits for b.');
});
