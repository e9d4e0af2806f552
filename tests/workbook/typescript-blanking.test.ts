import { execFileSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { compileCell } from '../../src/workbook/evaluate.ts';
import { parseCell } from '../../src/workbook/parse.ts';
import { valueExports } from '../../src/workbook/parsedCell.ts';
import { rewriteCell } from '../../src/workbook/rewrite.ts';
import { CONSTRUCTS } from './constructs.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'blanking-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** Exports of our evaluation. */
async function ours(text: string): Promise<Record<string, unknown>> {
  const parsed = parseCell(text);
  expect(parsed.problem).toBeNull();
  const rewritten = rewriteCell(text, parsed);
  expect(rewritten.problem).toBeNull();
  const meta = { signal: new AbortController().signal, onStop: () => {} };
  const values = await compileCell('test.ts', parsed, rewritten).call({
    meta,
    load: () => Promise.reject(),
    imported: [],
  });
  return Object.fromEntries(valueExports(parsed).map((e, i) => [e.name, values[i]]));
}

/** Functions and classes compared by what they are called with, everything else by content. */
const comparable = (values: object) =>
  JSON.stringify(
    Object.entries(values).sort(([a], [b]) => (a < b ? -1 : 1)),
    (_, value: unknown) => (typeof value === 'function' ? `function of ${value.length}` : (value ?? null)),
  );

describe('against the output of TypeScript itself', () => {
  beforeAll(() => {
    const sources = path.join(folder, 'in');
    mkdirSync(sources);
    for (const [name, text] of Object.entries(CONSTRUCTS))
      writeFileSync(path.join(sources, `${name}.mts`), text);
    writeFileSync(path.join(folder, 'package.json'), '{"type":"module"}');
    const compilerOptions = {
      noCheck: true,
      target: 'esnext',
      module: 'esnext',
      verbatimModuleSyntax: true,
      rootDir: 'in',
      outDir: 'out',
      types: [],
    };
    writeFileSync(path.join(folder, 'tsconfig.json'), JSON.stringify({ compilerOptions, include: ['in'] }));
    const compiler = path.resolve(import.meta.dirname, '../../node_modules/typescript/bin/tsc');
    execFileSync(process.execPath, [compiler, '-p', folder], { stdio: ['ignore', 'inherit', 'inherit'] });
  }, 60_000);

  test.each(Object.keys(CONSTRUCTS))('%s', async (name) => {
    const url = pathToFileURL(path.join(folder, 'out', `${name}.mjs`)).href;
    const expected = (await import(/* @vite-ignore */ url)) as object;
    expect(comparable(await ours(CONSTRUCTS[name]!))).toBe(comparable(expected));
  });
});

describe('places', () => {
  test.each(Object.keys(CONSTRUCTS))('every word that is left stands where it stood: %s', (name) => {
    const text = CONSTRUCTS[name]!;
    const { body } = rewriteCell(text, parseCell(text));
    const linesOf = (t: string) => t.split(/\r\n|[\n\r]/);
    expect(linesOf(body)).toHaveLength(linesOf(text).length);
    linesOf(body).forEach((line, i) => {
      const original = linesOf(text)[i]!;
      // Semicolons, moved parentheses and the helper names are ours; all else must be the text itself.
      const foreign = [...line.matchAll(/[^\s;()]+/g)].filter(
        (w) => !w[0].startsWith('$0') && !original.startsWith(w[0], w.index),
      );
      expect(foreign.map((w) => w[0])).toEqual([]);
    });
  });
});

describe('what is more than types', () => {
  test.each([
    ['const a = 1;\nenum E { A }', 'An enum cannot be used in a cell.', 2, 1],
    ['export enum E { A }', 'An enum cannot be used in a cell.', 1, 8],
    ['namespace N { export const a = 1 }', 'A namespace with code cannot be used in a cell.', 1, 1],
    [
      'class A { constructor(public a: number) {} }',
      'A parameter property (constructor(public x)) cannot be used in a cell.',
      1,
      23,
    ],
    ['const a = <number>b;', 'A type in front of a value (<T>value) cannot be used in a cell.', 1, 11],
    ["import a = require('a');", 'import … = cannot be used in a cell.', 1, 1],
    ['export = 1;', 'export = cannot be used in a cell.', 1, 1],
    ['@dec class A {}', 'Decorators cannot be used in a cell.', 1, 1],
    ['class A { accessor a = 1 }', 'accessor fields cannot be used in a cell.', 1, 11],
    ['let a = 1; if (a <!--a) a;', '<!-- cannot be used in a cell.', 1, 18],
  ])('%j is refused', (text, message, line, column) => {
    const parsed = parseCell(text);
    expect(parsed.problem).toBeNull();
    expect(rewriteCell(text, parsed).problem).toMatchObject({
      message,
      line,
      column,
      hint: expect.stringMatching(/.+/),
    });
  });

  test('the text of a cell is read only, never changed in length but by a squeezed-in semicolon', () => {
    const text = readFileSync(path.resolve(import.meta.dirname, '../../src/view/view.ts'), 'utf8');
    const { body } = rewriteCell(text, parseCell(text));
    expect(body).toHaveLength(text.length);
  });
});
