import { afterEach, beforeEach, expect, test, vi } from 'vitest';
import { prose } from '../../src/view/view.ts';
import { openPage } from './support/openPage.ts';
import { soon } from './support/soon.ts';

/** What waits for the page to be idle; the test says when that is. */
let waiting: (() => void)[] = [];

beforeEach(() => {
  waiting = [];
  vi.stubGlobal('requestIdleCallback', (act: () => void) => waiting.push(act));
});
afterEach(() => {
  vi.unstubAllGlobals();
});

const tall = Array.from({ length: 400 }, (_, i) => `Line ${i}.`).join('\n\n');

/** One cell at the top, one some screens below it. */
async function openFar() {
  const open = await openPage(
    [
      { name: 'a.ts', text: 'first' },
      { name: 'b.ts', text: '' },
      { name: 'c.ts', text: 'first' },
    ],
    (text, name) => ({ shown: prose`${name === 'b.ts' ? tall : text}` }),
  );
  const word = (cell: string) => open.find(cell, '.prose').textContent!.trim();
  await soon(() => expect(word('c.ts')).toBe('first'));
  // The page learns with the next frames what is near.
  for (let i = 0; i < 3; i++) await new Promise(requestAnimationFrame);
  waiting = []; // editors wait for that too
  return { ...open, word };
}

test('a result on the screen is drawn at once, one far below when the page is idle', async () => {
  const { engine, word } = await openFar();
  await engine.edit('a.ts', 'second');
  await engine.edit('c.ts', 'second');
  await soon(() => expect(word('a.ts')).toBe('second'));
  await new Promise(requestAnimationFrame);
  expect(word('c.ts')).toBe('first');
  expect(waiting).toHaveLength(1);
  waiting[0]!();
  await soon(() => expect(word('c.ts')).toBe('second'));
});

test('or when the reader comes near, with the latest result alone', async () => {
  const { engine, word, cell } = await openFar();
  await engine.edit('c.ts', 'second');
  await engine.edit('c.ts', 'third');
  await new Promise(requestAnimationFrame);
  expect(word('c.ts')).toBe('first');
  cell('c.ts').scrollIntoView();
  await soon(() => expect(word('c.ts')).toBe('third'));
});
