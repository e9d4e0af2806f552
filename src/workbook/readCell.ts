import { parseCell } from './parse.ts';
import type { ReadCell } from './parsedCell.ts';
import { rewriteCell } from './rewrite.ts';

/** The reader of cells. It brings the parser along, the largest part of the engine: hosts may load it late. */
export function readCell(text: string): ReadCell {
  const { program, ...parsed } = parseCell(text);
  if (parsed.problem)
    return { parsed, rewritten: { body: '', asynchronous: false, problem: parsed.problem } };
  return { parsed, rewritten: rewriteCell(text, { program, ...parsed }) };
}
