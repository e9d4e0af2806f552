import type { GridValue } from '../base/grid.ts';
import { type Delimited, headingCount, isComment, tableIn } from './delimited.ts';
import {
  DELIMITERS,
  isBlank,
  MOST_COLUMNS,
  NoHeadingsError,
  RARE_DELIMITERS,
  type RawRow,
  splitRows,
  unmarked,
} from './layout.ts';

/** A number or a time, perhaps with a unit; '<' before what the meter could not tell. */
const NUMERIC = /^[<>~]?\s*[+−-]?\d+(?:[.,:]\d+)*(?:\s*[^\d\s;|,]\S{0,8})?$/;
/** A colon stands in times and a space in any text, so that neither tells a table without headings. */
const UNMISTAKABLE = RARE_DELIMITERS.filter((mark) => mark !== ':' && mark !== ' ');
/** Nobody names columns by hand in a longer text (our rule). */
const LONGEST_TEXT = 500_000;

/** The entries of a row that are not blank, trimmed. */
export const filled = ({ entries }: RawRow) =>
  entries.map((entry) => entry.trim()).filter((entry) => entry !== '');
const numbersIn = (row: RawRow) => filled(row).filter((entry) => NUMERIC.test(entry)).length;
/** Whether a row looks like measurements: two numbers or more, and no remark. */
export const isMeasured = (row: RawRow) => !isComment(row) && numbersIn(row) >= 2;

/** A text in rows, nothing known of its headings. */
interface Unnamed {
  delimiter: string;
  rows: RawRow[];
  body: string;
  /** Rows with two numbers. */
  measured: number;
}

/** The way of splitting that shows most rows with two numbers; else the earlier delimiter. */
export function splitByNumbers(text: string): Unnamed {
  const { body, named } = unmarked(text);
  const nothing: Unnamed = { delimiter: ',', rows: [], body, measured: 0 };
  if (text.length > LONGEST_TEXT) return nothing;
  const among = (marks: readonly string[], least: Unnamed): Unnamed =>
    marks
      .filter((mark) => mark === named || body.includes(mark))
      .map((delimiter) => {
        const rows = splitRows(body, delimiter);
        return { delimiter, rows, body, measured: rows.filter(isMeasured).length };
      })
      .reduce((best, split) => (split.measured > best.measured ? split : best), least);
  if (named !== undefined) return among([named], nothing);
  const usual = among(DELIMITERS, nothing);
  return usual.measured >= 2 ? usual : among(UNMISTAKABLE, usual);
}

const numbered = (entries: readonly string[], width: number) =>
  Array.from({ length: width }, (_, i) => entries[i]?.trim() || `column ${i + 1}`);

/** Whether the columns of a table have numbers instead of names. */
export const isNumbered = ({ headings }: GridValue): boolean =>
  headings.every((heading, i) => heading === `column ${i + 1}`);

/** Words in at least two columns and no number. */
const namesColumns = (row: RawRow) => filled(row).length >= 2 && numbersIn(row) === 0;

/** A place among rows where a table begins, with the names of its columns or at once with its rows. */
export interface Beginning {
  row: number;
  hasNames: boolean;
}

/** Where the table begins: at the words above its first numbers, if any; a row at rest may come between. */
export function beginning(rows: readonly RawRow[]): Beginning {
  let start = rows.findIndex(isMeasured);
  for (let row = start - 1; row >= 0; row--) {
    if (isBlank(rows[row]!)) continue;
    if (isComment(rows[row]!)) break;
    if (namesColumns(rows[row]!)) return { row, hasNames: true };
    if (numbersIn(rows[row]!) === 0) break;
    start = row;
  }
  return { row: start, hasNames: false };
}

/** Names of columns may stand in a line that is marked as a comment. */
const namesIn = (row: RawRow) => {
  const names = row.entries.slice(0, headingCount(row));
  return isComment(row) ? names.map((name) => name.replace(/^#+\s*/, '')) : names;
};

/** The table that begins somewhere: as wide as its longest row, columns without a name numbered. Null for a far too wide one. */
export function tableFrom(
  { delimiter, rows, body }: Unnamed,
  { row, hasNames }: Beginning,
  file?: string,
): Delimited | null {
  const first = rows[row]!;
  const names = hasNames ? namesIn(first) : [];
  const below = rows.slice(row).filter((one) => !isComment(one));
  const width = Math.max(names.length, ...below.map(headingCount));
  if (width > MOST_COLUMNS) return null;
  const heading = { line: first.line, entries: numbered(names, width) };
  const withHeading = [...rows.slice(0, row), heading, ...rows.slice(hasNames ? row + 1 : row)];
  return tableIn({ delimiter, rows: withHeading, index: row, body }, file);
}

/**
 * A table whose headings nobody here knows, or that has none: found by its numbers, its columns named by the words above
 * them, else numbered. Somebody is to say what they hold.
 *
 * Throws    `otherwise` for a text without at least two rows of numbers
 *
 * @example
 * readUnnamedTable('100;1,1\n150;1,4', new Error()).headings // ['column 1', 'column 2']
 */
export function readUnnamedTable(text: string, otherwise: Error, file?: string): Delimited {
  const unnamed = splitByNumbers(text);
  const table = unnamed.measured < 2 ? null : tableFrom(unnamed, beginning(unnamed.rows), file);
  if (!table) throw otherwise;
  return table;
}

/** A table as its reader reads it; where that knows no heading, the table as it stands, for somebody to name its columns. */
export function readNamedOrNot(
  read: (text: string, file?: string) => Delimited,
  text: string,
  file?: string,
): Delimited {
  try {
    return read(text, file);
  } catch (error) {
    if (!(error instanceof NoHeadingsError)) throw error;
    return readUnnamedTable(text, error, file);
  }
}
