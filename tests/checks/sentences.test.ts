import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

const src = path.resolve(import.meta.dirname, '../../src');
const EXPORT = /^export (?:async |abstract )?(?:const|let|function\*?|class|interface|type) (\w+)/;

/** Names that a text exports without a doc comment that ends on the line above. */
function unexplained(text: string): string[] {
  const lines = text.split('\n');
  return lines.flatMap((line, i) => {
    const name = EXPORT.exec(line)?.[1];
    return name && !lines[i - 1]?.trimEnd().endsWith('*/') ? [name] : [];
  });
}

test('whatever a file exports, a sentence above it says what it is', () => {
  const files = readdirSync(src, { recursive: true, encoding: 'utf8' }).filter((file) =>
    /(?<!\.d)\.ts$/.test(file),
  );
  const found = files.flatMap((file) =>
    unexplained(readFileSync(path.join(src, file), 'utf8')).map((name) => `${file}: ${name}`),
  );
  expect(files.length).toBeGreaterThan(300);
  expect(found).toEqual([]);
});

test('one without is found', () => {
  expect(unexplained('/** Said. */\nexport const a = 1;\nexport function b() {}\n')).toEqual(['b']);
});
