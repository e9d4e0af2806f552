import type { GridMark, GridValue } from '../base/grid.ts';
import { type Delimited, readDelimited } from './delimited.ts';
import { type Marks, marksOf, type Placed, readMarked } from './marks.ts';
import { type DecimalMark, decimalMark, readEntry } from './numbers.ts';

/** Headings of the first of two readings that belong together. */
export const FIRST_NAMES = /^(first|before|one|(test|trial|meter)\s?(1|a))$/i;
/** Headings of the second of two readings that belong together. */
export const SECOND_NAMES = /^(second|after|two|(test|trial|meter)\s?(2|b))$/i;

/** Two measurements of the same things, pair by pair. */
export interface Pairs {
  first: number[];
  second: number[];
  /** 0-based rows of the table that they stand in. */
  rows: number[];
}

function numberAt(
  grid: GridValue,
  row: number,
  column: number,
  mark: DecimalMark,
  marks: Marks,
): number | null {
  const entry = readEntry(grid.rows[row]![column]!, mark);
  if (entry.kind === 'number' && entry.value > 0) return entry.value;
  if (entry.kind !== 'missing')
    marks.problem(
      `"${grid.rows[row]![column]!.trim()}" is not a number above 0; expected one, such as 4.2`,
      column,
      row,
    );
  return null;
}

function readTable(grid: GridValue, marks: Marks): Pairs | null {
  const at = (names: RegExp) => grid.headings.findIndex((heading) => names.test(heading.trim()));
  const [first, second] = [at(FIRST_NAMES), at(SECOND_NAMES)];
  if (first < 0 || second < 0) {
    marks.problem('no two columns to compare; expected the headings first and second');
    return null;
  }
  const mark = decimalMark(grid.rows.flat());
  const pairs: Pairs = { first: [], second: [], rows: [] };
  for (const row of grid.rows.keys()) {
    const [a, b] = [first, second].map((column) => numberAt(grid, row, column, mark, marks));
    if (a == null || b == null) continue;
    pairs.first.push(a);
    pairs.second.push(b);
    pairs.rows.push(row);
  }
  return marks.broken ? null : pairs;
}

/**
 * Pairs of measurements from a table with the columns first and second; a row without both is left out.
 *
 * Throws    InputError for the first problem; `checkPairs` tells all of them
 */
export function readPairs(grid: Placed, file?: string): Pairs {
  return readMarked(grid, file, (marks) => readTable(grid, marks)).value;
}

/** Everything that is wrong in a table of pairs. */
export const checkPairs = (grid: GridValue): GridMark[] => marksOf((marks) => readTable(grid, marks));

/** The table of pairs in a text. */
export const readPairTable = (text: string, file?: string): Delimited =>
  readDelimited(text, {
    file,
    countHeadings: (entries) =>
      entries.filter((entry) => FIRST_NAMES.test(entry.trim()) || SECOND_NAMES.test(entry.trim())).length,
    expected: 'the headings first and second',
  });
