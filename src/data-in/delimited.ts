import { dsvFormat } from 'd3-dsv';
import type { GridValue } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';

/** Where a row stood in the text it came from. */
export interface RowPlace {
  /** 1-based line. */
  line: number;
  /** 1-based character position of each entry. */
  columns: number[];
}

/** A table read from text, with the place of every entry kept for messages. */
export interface Delimited extends GridValue {
  headingPlace: RowPlace;
  /** One for each of `rows`. */
  places: RowPlace[];
  /** Comment and note lines, in order, without their marks. */
  notes: string[];
}

export interface DelimitedOptions {
  file?: string;
  /** How many entries of a row are headings; the row of headings is the first with two or more. */
  countHeadings?: (entries: string[]) => number;
  /** Headings to expect, for messages. */
  expected?: string;
}

interface RawRow {
  line: number;
  entries: string[];
}

/** In order of preference: a comma may also be a decimal mark, a semicolon rarely stands in a number. */
const DELIMITERS = ['\t', ';', ','];
/** A first line that some spreadsheets write and read to name the delimiter. */
const NAMED_DELIMITER = /^sep=(.)\r?\n/i;
/** '#1' may be the label of a stage, '# done indoors' is a comment. */
const COMMENT = /^#(?!\d)/;
const LINE_BREAK = /\r\n|\r|\n/g;
/** Headings deeper than this in the text are not looked for. */
const HEADING_SEARCH_ROWS = 60;

const isBlank = (row: RawRow) => row.entries.every((entry) => entry.trim() === '');
const tidy = (entry: string) => entry.replace(/\s+/g, ' ').trim();
const textEntries = (entries: string[]) => entries.filter((entry) => /\p{L}/u.test(entry)).length;

/** Rows as they stand; d3-dsv knows the quotation marks, the line numbers follow from the line breaks inside entries. */
function splitRows(text: string, delimiter: string): RawRow[] {
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

/** 1-based character position of each entry in a line of text; a quotation mark counts only where an entry begins. */
function entryColumns(line: string, delimiter: string): number[] {
  const columns = [1];
  let quoted = false;
  for (let i = 0; i < line.length; i++) {
    if (line[i] === '"' && (quoted || columns.at(-1) === i + 1)) quoted = !quoted;
    else if (line[i] === delimiter && !quoted) columns.push(i + 2);
  }
  return columns;
}

function place(row: RawRow, lines: string[], delimiter: string): RowPlace {
  return { line: row.line, columns: entryColumns(lines[row.line - 1] ?? '', delimiter) };
}

const noteOf = (row: RawRow) =>
  tidy(row.entries.filter((entry) => entry.trim() !== '').join(', ')).replace(/^#+\s*/, '');

/** Entries of a row under the headings: short rows are filled up, entries beyond the last heading are a fault. */
function entriesUnder(row: RawRow, width: number, delimiter: string, file: string | undefined): string[] {
  const where = `${file ? `${file}, ` : ''}line ${row.line}`;
  if (row.entries.some((entry) => /[\r\n]/.test(entry)))
    throw new InputError(`${where}: a quotation mark opens here and is not closed in the same line`, {
      file,
      line: row.line,
    });
  const filled = row.entries.findLastIndex((entry) => entry.trim() !== '') + 1;
  if (filled > width) {
    const comma =
      delimiter === ',' ? '; numbers with a decimal comma need semicolons or tabs between them' : '';
    throw new InputError(`${where}: ${filled} entries, but there are ${width} headings${comma}`, {
      file,
      line: row.line,
    });
  }
  return Array.from({ length: width }, (_, i) => tidy(row.entries[i] ?? ''));
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

/** The way of splitting that shows most headings, then most regular rows; else the earlier delimiter. */
function bestSplit(text: string, named: string | undefined, count: (entries: string[]) => number): Split {
  const candidates = named === undefined ? DELIMITERS : [named];
  return candidates
    .map((delimiter) => splitAt(delimiter, text, count))
    .reduce((best, split) => {
      const better = split.found - best.found || split.regular - best.regular;
      return better > 0 ? split : best;
    });
}

/**
 * A table from text separated by tabs, semicolons or commas, as files hold it or as it is pasted from a
 * spreadsheet. Blank lines are passed over; lines above the headings and lines that begin with '#' are notes.
 *
 * Throws    InputError for a text without a table, an unclosed quotation mark, a row longer than the headings
 *
 * @example
 * readDelimited('power;lactate\n120;0,9').rows // [['120', '0,9']]
 */
export function readDelimited(text: string, options: DelimitedOptions = {}): Delimited {
  const { file, countHeadings = textEntries, expected = 'a first row that names each column' } = options;
  const unmarked = text.replace(/^\uFEFF/, '');
  const named = NAMED_DELIMITER.exec(unmarked)?.[1];
  // A named delimiter's line is blanked, not cut, so that later lines keep their numbers.
  const body = named === undefined ? unmarked : unmarked.replace(NAMED_DELIMITER, '\n');
  const { delimiter, rows, index, found } = bestSplit(body, named, countHeadings);
  if (found === 0) {
    const where = file ? `${file}, line 1` : 'line 1';
    throw new InputError(`${where}: no row of headings found; expected ${expected}`, { file, line: 1 });
  }

  const lines = body.split(/\r\n|\r|\n/);
  const heading = rows[index]!;
  const width = heading.entries.findLastIndex((entry) => entry.trim() !== '') + 1;
  const below = rows.slice(index + 1).filter((row) => !isBlank(row));
  const data = below.filter((row) => !COMMENT.test(row.entries[0]!.trim()));
  const comments = [...rows.slice(0, index), ...below.filter((row) => !data.includes(row))];
  return {
    headings: heading.entries.slice(0, width).map(tidy),
    rows: data.map((row) => entriesUnder(row, width, delimiter, file)),
    headingPlace: place(heading, lines, delimiter),
    places: data.map((row) => place(row, lines, delimiter)),
    notes: comments.filter((row) => !isBlank(row)).map(noteOf),
  };
}
