import type { ParsedCell } from './parsedCell.ts';

/** The text with every module name of the cell `from` replaced by that of `to`, and everything else as it was. */
export function renameImports(text: string, parsed: ParsedCell, from: string, to: string): string {
  if (!parsed.readable) return renameUnread(text, from, to);
  const references = parsed.references
    .filter((r) => r.from === `./${from}`)
    .sort((a, b) => b.start - a.start);
  return references.reduce((t, { start, end }) => `${t.slice(0, start + 1)}./${to}${t.slice(end - 1)}`, text);
}

/** A cell that is broken at the moment is followed by the look of its import lines. */
function renameUnread(text: string, from: string, to: string): string {
  const quoted = new RegExp(`(\\b(?:from|import)\\s*\\(?\\s*)(['"])\\./${from.replace('.', '\\.')}\\2`, 'g');
  return text.replace(quoted, `$1$2./${to}$2`);
}
