import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { compileCell } from '../../src/workbook/evaluate.ts';
import { parseCell } from '../../src/workbook/parse.ts';
import { rewriteCell } from '../../src/workbook/rewrite.ts';
import { openWorkbook } from './workbook.ts';

const FOLDER = path.resolve(import.meta.dirname, '../../src/workbook');

/** Real TypeScript to start from: the engine's own source. */
const TEXTS = readdirSync(FOLDER).map((file) => readFileSync(path.join(FOLDER, file), 'utf8').slice(0, 1500));

const FRAGMENTS = ['export default ', 'import ', '{', '}', '(', ')', '`', '${', "'", '/*', '*/', '//', '<T>', ' as any', '!', '?', ':', ';', '\n', '\r\n', '\u2028', 'await ', 'async ', '=>', 'class A { ', 'enum E {', '...', '@', '#', '\\u', '😀', '\0', 'export * from ', 'import.meta', 'import('];

interface Mutation {
  at: number;
  cut: number;
  insert: string;
}

const mutation: fc.Arbitrary<Mutation> = fc.record({
  at: fc.nat(1500),
  cut: fc.nat(12),
  insert: fc.oneof(fc.constantFrom(...FRAGMENTS, ''), fc.string({ maxLength: 3 })),
});

const mutated = fc
  .tuple(fc.constantFrom(...TEXTS), fc.array(mutation, { minLength: 1, maxLength: 5 }))
  .map(([text, changes]) => changes.reduce((t, { at, cut, insert }) => t.slice(0, at) + insert + t.slice(at + cut), text));

const linesOf = (text: string) => text.split(/\r\n|[\n\r\u2028\u2029]/).length;

describe('whatever is typed', () => {
  test('is read, or refused with a problem that lies in the text', () => {
    fc.assert(
      fc.property(mutated, (text) => {
        const parsed = parseCell(text);
        const rewritten = parsed.problem ? null : rewriteCell(text, parsed);
        const problem = parsed.problem ?? rewritten!.problem;
        if (problem) {
          expect(problem.message).toMatch(/\.$/);
          if (problem.line !== null) expect(problem.line).toBeLessThanOrEqual(linesOf(text));
        } else {
          expect(linesOf(rewritten!.body)).toBe(linesOf(text));
        }
      }),
      { numRuns: 1500, seed: 20263 },
    );
  }, 60_000);

  test('compiles once it has been accepted', () => {
    const refused: string[] = [];
    fc.assert(
      fc.property(mutated, (text) => {
        const parsed = parseCell(text);
        if (parsed.problem) return;
        const rewritten = rewriteCell(text, parsed);
        if (rewritten.problem) return;
        try {
          compileCell('a.ts', parsed, rewritten);
        } catch (fault) {
          refused.push(`${fault}\n${text}`);
        }
      }),
      { numRuns: 1500, seed: 20264 },
    );
    expect(refused).toEqual([]);
  }, 60_000);

  test('never breaks the engine: the cell fails, the others live', async () => {
    const other = 'export default 1;';
    await fc.assert(
      fc.asyncProperty(mutated, async (text) => {
        // Only texts that are not run: what a cell does when it runs is its own affair.
        const workbook = await openWorkbook({ a: `import './missing.ts';\n${text}`, b: other });
        expect(['failed', 'waiting']).toContain(workbook.state('a').phase);
        expect(workbook.status('b')).toBe('done');
      }),
      { numRuns: 200, seed: 20265 },
    );
  }, 60_000);
});
