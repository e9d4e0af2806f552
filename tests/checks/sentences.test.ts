import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { tsPlugin } from '@sveltejs/acorn-typescript';
import { type Comment, Parser } from 'acorn';
import { expect, test } from 'vitest';

const src = path.resolve(import.meta.dirname, '../../src');
const TypeScript = Parser.extend(tsPlugin());

/** Declarations that a text exports without a doc comment right above, by the line they begin with. */
function unexplained(text: string): string[] {
  const comments: Comment[] = [];
  const { body } = TypeScript.parse(text, {
    sourceType: 'module',
    ecmaVersion: 'latest',
    locations: true,
    onComment: comments,
  });
  const isSaid = (start: number) =>
    comments.some(({ type, value, end }) => {
      return (
        type === 'Block' && value.startsWith('*') && end <= start && text.slice(end, start).trim() === ''
      );
    });
  return body
    .filter((node) => node.type === 'ExportNamedDeclaration' && node.declaration && !isSaid(node.start))
    .map(({ start }) => text.slice(start).split('\n')[0]!);
}

test('whatever a file exports, a sentence above it says what it is', () => {
  const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((file) =>
    /(?<!\.d)\.ts$/.test(file),
  );
  const found = files.flatMap((file) =>
    unexplained(readFileSync(path.join(src, file), 'utf8')).map((line) => `${file}: ${line}`),
  );
  expect(files.length).toBeGreaterThan(300);
  expect(found).toEqual([]);
});

test('one without is found, and what only looks like one is not', () => {
  const text = '/** Said. */\nexport const a = `\nexport const c = 1;`;\nexport function b() {}\n';
  expect(unexplained(text)).toEqual(['export function b() {}']);
});
