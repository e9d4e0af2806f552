import type { ReadCell } from '../workbook/parsedCell.ts';

/**
 * A cell as read when Hourline was built, told as its difference from the text: what was blanked, and what was
 * written over it. A few hundred bytes; the text itself comes with the workbook.
 */
export interface PackedRead {
  parsed: ReadCell['parsed'];
  asynchronous: boolean;
  /** Start, end and replacement; 0 for spaces. */
  changes: [start: number, end: number, text: string | 0][];
}

/** Differences closer together than this are told as one. */
const NEAR = 4;

/** Null for a cell that cannot run or whose rewriting moved anything: it is read when it is opened. */
export function packRead(text: string, { parsed, rewritten }: ReadCell): PackedRead | null {
  const { body, asynchronous, problem } = rewritten;
  if (problem || body.length !== text.length) return null;
  const changes: PackedRead['changes'] = [];
  for (let i = 0; i < text.length; i++) {
    if (text[i] === body[i]) continue;
    const last = changes.at(-1);
    if (last && i - last[1] < NEAR) last[1] = i + 1;
    else changes.push([i, i + 1, 0]);
  }
  for (const change of changes) {
    const written = body.slice(change[0], change[1]);
    if (written.trim() !== '' || written.includes('\n')) change[2] = written;
  }
  return { parsed, asynchronous, changes };
}

/** A cell as read, from its text and what `packRead` kept; the text must be the one that was packed. */
export function unpackRead(text: string, { parsed, asynchronous, changes }: PackedRead): ReadCell {
  let body = '';
  let at = 0;
  for (const [start, end, written] of changes) {
    body += text.slice(at, start) + (written === 0 ? ' '.repeat(end - start) : written);
    at = end;
  }
  return { parsed, rewritten: { body: body + text.slice(at), asynchronous, problem: null } };
}

/** Two FNV-like sums with different factors, and the length: tells the shipped texts from all others. */
export function keyOf(text: string): string {
  let a = 0x811c9dc5;
  let b = 0x01000193;
  for (let i = 0; i < text.length; i++) {
    a = Math.imul(a ^ text.charCodeAt(i), 0x01000193);
    b = Math.imul(b ^ text.charCodeAt(i), 0x85ebca6b);
  }
  return [a >>> 0, b >>> 0, text.length].map((part) => part.toString(36)).join('.');
}
