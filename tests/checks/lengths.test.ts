import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

const root = path.resolve(import.meta.dirname, '../..');
/** One more is too many. */
const LINES = 299;

const linesOf = (text: string): number => text.trimEnd().split('\n').length;

test('no file of src and cells is longer than can be read at one sitting', () => {
  const files = ['src', 'cells'].flatMap((folder) =>
    readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((file) => /\.(ts|mjs|css)$/.test(file))
      .map((file) => path.join(folder, file)),
  );
  const long = files.filter((file) => linesOf(readFileSync(path.join(root, file), 'utf8')) > LINES);
  expect(files.length).toBeGreaterThan(500);
  expect(long).toEqual([]);
});

test('lines are counted as an editor does', () => {
  expect(linesOf('a\n\nb\n')).toBe(3);
});
