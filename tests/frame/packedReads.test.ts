import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { keyOf, packRead, unpackRead } from '../../src/frame/packedReads.ts';
import { readCell } from '../../src/workbook/readCell.ts';

const folder = path.resolve(import.meta.dirname, '../../cells');
const found = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((file) => file.endsWith('.ts'))
  .map((file) => readFileSync(path.join(folder, file), 'utf8'));

/** Some workbooks share cells to the letter. */
const shipped = [...new Set(found)];

const AWKWARD = [
  '',
  'export default 1;',
  `const a: number = 1, b = \`\n\${a as number}\n\`;\nexport { a, b };`,
  `import type { A } from './a.ts';\nimport { b } from './b.ts';\nexport const c = (x: A): number =>\n  b(x);\nexport default await c(1)`,
];

describe('cells read at build time', () => {
  test.each([...shipped, ...AWKWARD])('come out of the table as the parser reads them (%#)', (text) => {
    const read = readCell(text);
    const packed = packRead(text, read);
    if (packed) expect(unpackRead(text, JSON.parse(JSON.stringify(packed)))).toEqual(read);
    else expect(read.rewritten.body.length).not.toBe(text.length);
  });

  test('every shipped cell is in the table', () => {
    expect(shipped.map((text) => packRead(text, readCell(text)))).not.toContain(null);
  });

  test('a cell that cannot be read is left to the parser', () => {
    const text = 'export default (';
    expect(packRead(text, readCell(text))).toBeNull();
  });

  test('any change of a text changes its key', () => {
    const keys = shipped.flatMap((text) => [keyOf(text), keyOf(`${text} `), keyOf(text.replace('a', 'b'))]);
    expect(new Set(keys).size).toBe(keys.length);
  });
});
