import { InputError } from '../../base/inputError.ts';
import type { Setting, WorkbookDocument } from '../../workbook/document.ts';
import type { SnapshotCell } from '../../workbook/messages.ts';
import { escapeHtml } from './escape.ts';

const SHORTEST = 3;
const REPLACEMENT = 'Athlete';

/** The words to leave out, from one line with commas between. Throws InputError when one is too short. */
export function readWords(line: string): string[] {
  const words = line
    .split(',')
    .map((word) => word.trim())
    .filter((word) => word !== '');
  const short = words.find((word) => word.length < SHORTEST);
  if (short !== undefined) {
    throw new InputError(
      `“${short}” is too short to leave out safely: it would also stand inside other words; ` +
        `give at least ${SHORTEST} letters`,
    );
  }
  return words;
}

/** Without the words in title, texts and settings. Only whole words are replaced, in upper or lower case. */
export function withoutWords(workbook: WorkbookDocument, words: readonly string[]): WorkbookDocument {
  const blank = replacer(words);
  const settings: [string, Setting][] = Object.entries(workbook.settings).map(([place, { value, from }]) => [
    place,
    { value: mapTexts(value, blank), from: blank(from) },
  ]);
  return {
    ...workbook,
    title: blank(workbook.title),
    cells: workbook.cells.map(({ name, text }) => ({ name, text: blank(text) })),
    settings: Object.fromEntries(settings),
  };
}

/** Without the words in what the cells show. The markup is ours to sanitise afterwards. */
export function resultsWithoutWords(
  results: readonly SnapshotCell[],
  words: readonly string[],
): SnapshotCell[] {
  const blank = replacer(words);
  return results.map(({ name, html }) => ({ name, html: blank(html) }));
}

function replacer(words: readonly string[]): (text: string) => string {
  if (words.length === 0) return (text) => text;
  // In markup, a word may stand escaped. Longest first, so that no part of a longer one is left over.
  const forms = [...new Set(words.flatMap((word) => [word, escapeHtml(word)]))]
    .sort((a, b) => b.length - a.length)
    .map((word) => word.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&'));
  const pattern = new RegExp(`(?<![\\p{L}\\p{N}])(?:${forms.join('|')})(?![\\p{L}\\p{N}])`, 'giu');
  return (text) => text.replace(pattern, REPLACEMENT);
}

/** The same data with every text in it mapped. */
function mapTexts(value: unknown, map: (text: string) => string): unknown {
  if (typeof value === 'string') return map(value);
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((item) => mapTexts(item, map));
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, mapTexts(item, map)]));
}
