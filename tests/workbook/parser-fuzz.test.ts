import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { Parser } from 'acorn';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { blankTypes, isErased } from '../../src/workbook/blankTypes.ts';
import { compileCell } from '../../src/workbook/evaluate.ts';
import { Overlay } from '../../src/workbook/overlay.ts';
import { parseCell } from '../../src/workbook/parse.ts';
import { rewriteCell } from '../../src/workbook/rewrite.ts';
import { childrenOf, type SyntaxNode } from '../../src/workbook/syntax.ts';
import { CONSTRUCTS } from './constructs.ts';
import { openWorkbook } from './workbook.ts';

const FOLDER = path.resolve(import.meta.dirname, '../../src/workbook');

/** Real TypeScript to start from: the engine's own shorter files and the collected constructs. */
const TEXTS = [
  ...readdirSync(FOLDER).map((file) => readFileSync(path.join(FOLDER, file), 'utf8')),
  ...Object.values(CONSTRUCTS),
].filter((text) => text.length < 2500);

const FRAGMENTS = [
  'export default ',
  'import ',
  '{',
  '}',
  '(',
  ')',
  '`',
  '${',
  "'",
  '/*',
  '*/',
  '//',
  '<T>',
  ' as any',
  '!',
  '?',
  ':',
  ';',
  '\n',
  '\r\n',
  '\u2028',
  'await ',
  'async ',
  '=>',
  'class A { ',
  'enum E {',
  '...',
  '@',
  '#',
  '\\u',
  '😀',
  '\0',
  'export * from ',
  'import.meta',
  'import(',
];

interface Mutation {
  at: number;
  cut: number;
  insert: string;
}

const mutation: fc.Arbitrary<Mutation> = fc.record({
  at: fc.nat(2500),
  cut: fc.nat(12),
  insert: fc.oneof(fc.constantFrom(...FRAGMENTS, ''), fc.string({ maxLength: 3 })),
});

const mutated = fc
  .tuple(fc.constantFrom(...TEXTS), fc.array(mutation, { minLength: 1, maxLength: 4 }))
  .map(([text, changes]) =>
    changes.reduce(
      (t, { at, cut, insert }) => t.slice(0, at % t.length) + insert + t.slice((at % t.length) + cut),
      text,
    ),
  );

/** The constructs with line breaks put in and semicolons taken out: where statements end by line breaks is the risk. */
const relaidOut = fc
  .tuple(
    // Lists of exported types are taken out by rewriteCell, not by blankTypes.
    fc.constantFrom(...Object.values(CONSTRUCTS).filter((text) => !text.includes('export type {'))),
    fc.array(fc.record({ at: fc.nat(800), breaks: fc.boolean() }), { minLength: 1, maxLength: 4 }),
  )
  .map(([text, changes]) => changes.reduce((t, { at, breaks }) => relay(t, at, breaks), text));

/**
 * At the at-th space a line break, or the at-th semicolon replaced by one. Not after `static`, which the TypeScript
 * parser then takes for a field of that name; what runs is the plain JavaScript, which is right.
 */
function relay(text: string, at: number, breaks: boolean): string {
  const places = [...text.matchAll(breaks ? /(?<!static) /g : /;/g)].map((m) => m.index);
  if (places.length === 0) return text;
  const place = places[at % places.length]!;
  return `${text.slice(0, place)}\n${text.slice(place + 1)}`;
}

const parseJavaScript = (text: string) =>
  Parser.parse(text, { ecmaVersion: 'latest', sourceType: 'module' }) as unknown as SyntaxNode;

/** What a tree means at run time: kinds and names of the nodes in order, without types and empty statements. */
function outline(node: SyntaxNode): string {
  if (isErased(node) || ['EmptyStatement', 'ImportDeclaration', 'TSIndexSignature'].includes(node.type))
    return '';
  if (/^TS(As|Satisfies|NonNull|Instantiation)/.test(node.type)) return outline(node.expression!);
  if (node.type.startsWith('TS') || (node.abstract && node.key)) return '';
  if (node.type === 'MethodDefinition' && (node.value as SyntaxNode).type === 'TSDeclareMethod') return '';
  if (node.type === 'ExportNamedDeclaration') return node.declaration ? outline(node.declaration) : '';
  if (node.type === 'ExportDefaultDeclaration' && isErased(node.declaration!)) return '';
  const isThis = (child: SyntaxNode) => child.type === 'Identifier' && child.name === 'this';
  const inside = inOrder(node).filter((child) => !isThis(child) && !node.implements?.includes(child));
  const own = [node.type, node.name ?? '', node.operator ?? '', node.kind ?? ''].join(' ').trim();
  return `${own}(${inside.map(outline).filter(Boolean).join(',')})`;
}

/** The two parsers list some fields in another order; a shorthand property holds its name twice. */
const inOrder = (node: SyntaxNode) =>
  childrenOf(node)
    .filter((child, i, all) => all.findIndex((c) => c.start === child.start && c.type === child.type) === i)
    .sort((a, b) => a.start - b.start || b.end - a.end);

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

  test('compiles once it has been accepted, and means what TypeScript reads in it', () => {
    const wrong: string[] = [];
    let accepted = 0;
    fc.assert(
      fc.property(relaidOut, (text) => {
        const parsed = parseCell(text);
        if (parsed.problem) return;
        const overlay = new Overlay(text);
        if (blankTypes(parsed.program!, overlay)) return;
        accepted += 1;
        try {
          const plain = parseJavaScript(overlay.toString());
          // Parsed anew: blanking leaves marks in the tree.
          if (outline(plain) !== outline(parseCell(text).program!)) wrong.push(`${text}\n=>\n${overlay}`);
          compileCell('a.ts', parsed, rewriteCell(text, parseCell(text)));
        } catch (fault) {
          wrong.push(`${fault}\n${text}\n=>\n${overlay}`);
        }
      }),
      { numRuns: 1500, seed: 20264 },
    );
    expect(wrong.slice(0, 3)).toEqual([]);
    // Else this would say nothing.
    expect(accepted).toBeGreaterThan(500);
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
