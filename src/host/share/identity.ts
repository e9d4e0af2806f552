import { InputError } from '../../base/inputError.ts';
import type { Setting, WorkbookDocument } from '../../workbook/document.ts';
import type { SnapshotCell } from '../../workbook/messages.ts';
import { escapeHtml } from './escape.ts';

const SHORTEST = 3;
const REPLACEMENT = 'Athlete';
const NO_DATE = 'date left out';

/** A space of any kind: results keep a number and its unit together with a thin one. */
const SPACE = '(?:\\s|&nbsp;)';

const MONTH =
  '(?:jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?|oct(?:ober)?|' +
  'nov(?:ember)?|dec(?:ember)?)';

/** Days as people write them: 2026-03-04, 4.3.2026, 3/4/26, 4 March 2026, March 4th, 2026; with a time of day after the first. */
const DATE = new RegExp(
  `(?<![\\p{L}\\p{N}.-])(?:${[
    '(?:19|20)\\d\\d-\\d\\d?-\\d\\d?(?:T[\\d:.]+Z?)?',
    `\\d{1,2}\\.${SPACE}?\\d{1,2}\\.${SPACE}?(?:19|20)\\d\\d`,
    '\\d{1,2}/\\d{1,2}/(?:\\d\\d)?\\d\\d',
    `\\d{1,2}(?:st|nd|rd|th)?\\.?${SPACE}${MONTH}\\.?${SPACE}(?:19|20)\\d\\d`,
    `${MONTH}\\.?${SPACE}\\d{1,2}(?:st|nd|rd|th)?,?${SPACE}(?:19|20)\\d\\d`,
  ].join('|')})(?![\\p{L}\\p{N}])`,
  'giu',
);

/** Headings of columns that say who was tested, when, or what somebody noted. */
const PRIVATE_COLUMN =
  /^(athlete|subject|person|participant|name|id|code|club|team|born|birthday|age|date|day|visit|tester|notes?|comments?|remarks?)\b/i;

/** What identifies somebody in a workbook, and how it is left out. */
interface Identity {
  words: readonly string[];
  /** The text without words and dates. */
  blank(text: string): string;
}

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

/** The words, and every entry that stands in a column for names, dates or notes. */
export function identityIn({ settings }: WorkbookDocument, words: readonly string[]): Identity {
  const entries = Object.values(settings).flatMap(({ value }) => privateEntries(value));
  const all = [...new Set([...words, ...entries.filter((entry) => entry.length >= SHORTEST)])];
  const withoutWords = replacer(all);
  return { words: all, blank: (text) => withoutWords(text).replace(DATE, NO_DATE) };
}

/** Entries of a table's columns for names, dates and notes; none of any other value. */
function privateEntries(value: unknown): string[] {
  const { headings, rows } = (value ?? {}) as { headings?: unknown; rows?: unknown };
  if (!Array.isArray(headings) || !Array.isArray(rows)) return [];
  const columns = headings.flatMap((heading, i) => (PRIVATE_COLUMN.test(String(heading).trim()) ? [i] : []));
  return rows.flatMap((row) => columns.map((column) => String(row?.[column] ?? '').trim()));
}

/** Without the identity in title, texts and settings, and with no day of its last change. */
export function workbookWithout(workbook: WorkbookDocument, { blank }: Identity): WorkbookDocument {
  const settings: [string, Setting][] = Object.entries(workbook.settings).map(([place, { value, from }]) => [
    place,
    { value: mapTexts(value, blank), from: blank(from) },
  ]);
  return {
    ...workbook,
    id: '', // the record it was made from is nobody's business either
    title: blank(workbook.title),
    cells: workbook.cells.map(({ name, text }) => ({ name, text: blank(text) })),
    settings: Object.fromEntries(settings),
    changed: '', // read again as unknown
  };
}

/** Without the identity in what the cells show. The markup is ours to sanitise afterwards. */
export function resultsWithout(results: readonly SnapshotCell[], { blank }: Identity): SnapshotCell[] {
  return results.map(({ name, inShort, html }) => ({ name, inShort: blank(inShort), html: blank(html) }));
}

/**
 * Reads the finished file as a stranger would: as it is, and without tags and escapes. Throws InputError when a word or
 * a date is left in it.
 */
export function checkNothingLeft(file: string, { words }: Identity): void {
  const patterns = words.length === 0 ? [DATE] : [patternOf(words), DATE];
  for (const text of [file, unescaped(file)]) {
    const left = patterns.flatMap((pattern) => text.match(pattern) ?? [])[0];
    if (left === undefined) continue;
    throw new InputError(
      `Nothing was saved: “${left}” would still stand in the page, perhaps in the name of a cell; change it in the workbook`,
    );
  }
}

const CHARACTERS: Record<string, string> = { amp: '&', lt: '<', gt: '>', quot: '"', '#39': "'" };

/** What is left of HTML or JSON for the eye: no tags, escapes read. */
const unescaped = (file: string): string =>
  file
    .replace(/<[^>]*>/g, '')
    .replace(/\\u([\da-f]{4})/gi, (_, code) => String.fromCharCode(Number.parseInt(code, 16)))
    .replace(/&(amp|lt|gt|quot|#39);/g, (_, name) => CHARACTERS[name]!)
    .replace(/\\[nrt]/g, ' ')
    .replace(/\\(["\\/])/g, '$1');

function replacer(words: readonly string[]): (text: string) => string {
  if (words.length === 0) return (text) => text;
  const pattern = patternOf(words);
  return (text) => text.replace(pattern, REPLACEMENT);
}

/** Any of the words, whole, in upper or lower case. */
function patternOf(words: readonly string[]): RegExp {
  // In markup, a word may stand escaped. Longest first, so that no part of a longer one is left over.
  const forms = [...new Set(words.flatMap((word) => [word, escapeHtml(word)]))]
    .sort((a, b) => b.length - a.length)
    .map((word) => word.replace(/[\\^$.*+?()[\]{}|/]/g, '\\$&').replace(/\s+/g, `${SPACE}+`));
  return new RegExp(`(?<![\\p{L}\\p{N}])(?:${forms.join('|')})(?![\\p{L}\\p{N}])`, 'giu');
}

/** The same data with every text in it mapped. */
function mapTexts(value: unknown, map: (text: string) => string): unknown {
  if (typeof value === 'string') return map(value);
  if (typeof value !== 'object' || value === null) return value;
  if (Array.isArray(value)) return value.map((item) => mapTexts(item, map));
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, mapTexts(item, map)]));
}
