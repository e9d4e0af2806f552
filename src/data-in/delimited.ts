import type { GridValue } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import {
  COMMENT,
  findLayout,
  isBlank,
  type Layout,
  type LayoutOptions,
  type RawRow,
  SPACED,
} from './layout.ts';

/** Where a row stood in the text it came from. */
interface RowPlace {
  /** 1-based line. */
  line: number;
  /** 1-based character position of each entry. */
  columns: number[];
  /** The heading that each entry stood under, where the table was laid out anew; '' for none of its own. */
  fields?: string[];
}

/** A table read from text, with the place of every entry kept for messages. */
export interface Delimited extends GridValue {
  headingPlace: RowPlace;
  /** One for each of `rows`. */
  places: RowPlace[];
  /** Whether it lay on its side in the text. */
  isTurned?: true;
  /** Comment and note lines, in order, without their marks. */
  notes: string[];
}

type DelimitedOptions = LayoutOptions;

const tidy = (entry: string) => entry.replace(/\s+/g, ' ').trim();

/** 1-based character position of each entry in a line of text; a quotation mark counts only where an entry begins. */
function entryColumns(line: string, delimiter: string): number[] {
  if (delimiter === SPACED) return [...line.matchAll(/(?<=^ ?| {2})[^ ]/g)].map((start) => start.index + 1);
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

/** A title over merged cells stands in each of them and is told once. */
const noteOf = (row: RawRow) =>
  tidy([...new Set(row.entries.filter((entry) => entry.trim() !== ''))].join(', ')).replace(/^#+\s*/, '');

/** How many columns a row of headings has, empty ones at its end not counted. */
export const headingCount = ({ entries }: RawRow) =>
  entries.findLastIndex((entry) => entry.trim() !== '') + 1;

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

/**
 * A table from text separated by tabs, semicolons, commas, bars or runs of spaces, as files hold it or as it is
 * pasted from a spreadsheet. Blank lines are passed over; lines above the headings and lines that begin with '#' are
 * notes.
 *
 * Throws    InputError for a text without a table or with far too many rows, an unclosed quotation mark, a row longer
 *           than the headings
 *
 * @example
 * readDelimited('power;lactate\n120;0,9').rows // [['120', '0,9']]
 */
export function readDelimited(text: string, options: DelimitedOptions = {}): Delimited {
  return tableIn(findLayout(text, options), options.file);
}

/** Whether a row is a remark and no data: its first entry begins with #, and no digit follows. */
export const isComment = (row: RawRow): boolean => COMMENT.test(row.entries[0]!.trim());

/** The table of a text whose layout is known. */
export function tableIn({ delimiter, rows, index, body }: Layout, file: string | undefined): Delimited {
  const lines = body.split(/\r\n|\r|\n/);
  const heading = rows[index]!;
  const width = headingCount(heading);
  const below = rows.slice(index + 1).filter((row) => !isBlank(row));
  const data = below.filter((row) => !isComment(row));
  const comments = [...rows.slice(0, index), ...below.filter(isComment)];
  return {
    headings: heading.entries.slice(0, width).map(tidy),
    rows: data.map((row) => entriesUnder(row, width, delimiter, file)),
    headingPlace: place(heading, lines, delimiter),
    places: data.map((row) => place(row, lines, delimiter)),
    notes: comments.filter((row) => !isBlank(row)).map(noteOf),
  };
}
