import { dsvFormat } from 'd3-dsv';
import { InputError } from '../base/inputError.ts';

/** A row of a text as it stands, with the line it begins in. */
export interface RawRow {
  /** 1-based. */
  line: number;
  entries: string[];
}

/** How the table in a text is to be found, and what is said when there is none. */
export interface LayoutOptions {
  file?: string;
  /** How many entries of a row are headings; the row of headings is the first with two or more. */
  countHeadings?: (entries: string[]) => number;
  /** Headings to expect, for messages. */
  expected?: string;
  /** Longer tables are refused. */
  mostRows?: number;
}

/** How a text holds its table. */
export interface Layout {
  /** One character, or two spaces for columns that are set with spaces. */
  delimiter: string;
  rows: RawRow[];
  /** Place of the row of headings among `rows`. */
  index: number;
  /** The text with the marks of its encoding and delimiter blanked. */
  body: string;
}

/** Columns set with two spaces or more, as a printout has them. */
export const SPACED = '  ';
/** In order of preference: a comma may also be a decimal mark, a semicolon rarely stands in a number. */
export const DELIMITERS = ['\t', ';', ',', '|', SPACED];
/** Marks that stand in texts and times as well: tried where the others show no table. */
export const RARE_DELIMITERS = ['^', '~', ':', ' '];
/** A first line that some spreadsheets write and read to name the delimiter. */
const NAMED_DELIMITER = /^sep=([\t;,|:^~ ])\r?\n/i;
/** '#1' may be the label of a stage, '# done indoors' is a comment. */
export const COMMENT = /^#(?!\d)/;
const LINE_BREAK = /\r\n|\r|\n/g;
/** As many characters tell how a text is laid out. */
const HEAD_LENGTH = 60_000;
/** A recording of two days at one row a second is shorter (our rule). */
export const MOST_ROWS = 200_000;
/** Columns beyond these belong to no table of a test. */
export const MOST_COLUMNS = 1000;
/** Headings deeper than this in the text are not looked for. */
export const HEADING_SEARCH_ROWS = 60;

/** Whether a row has no entry at all. */
export const isBlank = (row: RawRow) => row.entries.every((entry) => entry.trim() === '');
const textEntries = (entries: string[]) => entries.filter((entry) => /\p{L}/u.test(entry)).length;

/** Numbers may stand to the right in their columns. */
const spacedRow = (line: string) => line.trim().split(/ {2,}/);

/** Entries of one line of text. */
export const entriesOfLine = (line: string, delimiter: string): string[] =>
  delimiter === SPACED ? spacedRow(line) : (dsvFormat(delimiter).parseRows(line)[0] ?? []);

/** Rows as they stand; d3-dsv knows the quotation marks, the line numbers follow from the line breaks inside entries. */
export function splitRows(text: string, delimiter: string): RawRow[] {
  if (delimiter === SPACED)
    return text.split(LINE_BREAK).map((line, i) => ({ line: i + 1, entries: spacedRow(line) }));
  let line = 1;
  return dsvFormat(delimiter)
    .parseRows(text)
    .map((entries) => {
      const row = { line, entries };
      line += 1 + entries.reduce((sum, entry) => sum + (entry.match(LINE_BREAK)?.length ?? 0), 0);
      return row;
    });
}

/** Index of the row of headings: the first with two or more, else the first with one. */
function findHeadings(
  rows: RawRow[],
  count: (entries: string[]) => number,
): { index: number; found: number } {
  const counts = rows.slice(0, HEADING_SEARCH_ROWS).map((row) => (isBlank(row) ? -1 : count(row.entries)));
  for (const enough of [2, 1]) {
    const index = counts.findIndex((found) => found >= enough);
    if (index >= 0) return { index, found: counts[index]! };
  }
  return { index: -1, found: 0 };
}

interface Split {
  delimiter: string;
  rows: RawRow[];
  /** Place of the row of headings and how many it holds; -1 and 0 when there is none. */
  index: number;
  found: number;
  /** Rows with as many entries as there are headings. */
  regular: number;
}

function splitAt(delimiter: string, text: string, count: (entries: string[]) => number): Split {
  const rows = splitRows(text, delimiter);
  const { index, found } = findHeadings(rows, count);
  const width = rows[index]?.entries.length;
  return {
    delimiter,
    rows,
    index,
    found,
    regular: rows.filter((row) => row.entries.length === width).length,
  };
}

function lineCount(text: string): number {
  const mark = text.includes('\n') ? '\n' : '\r';
  let count = 1;
  for (let at = text.indexOf(mark); at >= 0; at = text.indexOf(mark, at + 1)) count++;
  return count;
}

/** The beginning of a text, as much as tells its layout; whole lines where it has any. */
function headOf(text: string): string {
  if (text.length <= HEAD_LENGTH) return text;
  const head = text.slice(0, HEAD_LENGTH);
  return head.slice(0, Math.max(head.lastIndexOf('\n'), head.lastIndexOf('\r')) + 1) || head;
}

/** The way of splitting that shows most headings, then most regular rows; else the earlier delimiter. */
function bestSplit(text: string, named: string | undefined, count: (entries: string[]) => number): Split {
  const head = headOf(text);
  const among = (marks: readonly string[], least: Split): Split =>
    marks
      .filter((mark) => head.includes(mark))
      .map((delimiter) => splitAt(delimiter, head, count))
      .reduce((best, split) => {
        const better = split.found - best.found || split.regular - best.regular;
        return better > 0 ? split : best;
      }, least);
  if (named !== undefined) return splitAt(named, head, count);
  const usual = among(DELIMITERS, splitAt(',', head, count));
  if (usual.found >= 2) return usual;
  const rare = among(RARE_DELIMITERS, usual);
  // Words of a heading with spaces would be columns of their own, and the numbers stand under others.
  return rare.found >= 2 && 2 * rare.regular > rare.rows.length - rare.index ? rare : usual;
}

/** A text without the marks of its encoding and delimiter, and the delimiter that it names, if any. */
export function unmarked(text: string): { body: string; named: string | undefined } {
  const bare = text.replace(/^\uFEFF/, '');
  const named = NAMED_DELIMITER.exec(bare)?.[1];
  // A named delimiter's line is blanked, not cut, so that later lines keep their numbers.
  return { named, body: named === undefined ? bare : bare.replace(NAMED_DELIMITER, '\n') };
}

const WEB_PAGE = /^\s*<(!doctype html|html)\b/i;

/** Thrown for a text in which no row of headings is known. */
export class NoHeadingsError extends InputError {}

/**
 * Delimiter and row of headings of a text.
 *
 * Throws    InputError for a web page, a text without headings, or one with far too many rows or columns
 */
export function findLayout(text: string, options: LayoutOptions = {}): Layout {
  const { file, countHeadings = textEntries, mostRows = MOST_ROWS } = options;
  const { expected = 'a first row that names each column' } = options;
  const { body, named } = unmarked(text);
  if (WEB_PAGE.test(body))
    throw new InputError(
      `${file ? `${file}: ` : ''}a web page; expected a table or a recording. A share page opens with Workbooks; a table on a page can be copied and pasted`,
      { file },
    );
  const where = file ? `${file}, ` : '';
  const { delimiter, index, found, rows } = bestSplit(body, named, countHeadings);
  if (found === 0)
    throw new NoHeadingsError(`${where}line 1: no row of headings found; expected ${expected}`, {
      file,
      line: 1,
    });
  const width = rows[index]!.entries.length;
  if (width > MOST_COLUMNS)
    throw new InputError(`${where}a table of ${width} columns; expected at most ${MOST_COLUMNS}`, { file });
  // Counted before they are split, which takes a hundred times as long.
  const lines = lineCount(body);
  if (lines > mostRows)
    throw new InputError(`${where}a table of ${lines} lines; expected at most ${mostRows}`, { file });
  return { delimiter, rows: body.length > HEAD_LENGTH ? splitRows(body, delimiter) : rows, index, body };
}
