import type { GridMark, GridValue } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import { readHeading } from './headings.ts';
import type { Placed } from './marks.ts';
import { type Meaning, QUANTITIES } from './quantities.ts';

/** What a column is taken for: a quantity with a unit (null for its usual one), or nothing. */
export type ColumnUse = { meaning: Meaning; unit: string | null } | 'ignore';

/** One column as the reader understood it, for somebody to correct. */
export interface ColumnGuess {
  heading: string;
  /** Null for a heading that is none of ours. */
  use: ColumnUse | null;
  /** Up to three entries, to recognise the column by. */
  examples: string[];
}

/** Quantities that a column of stages or reps may be said to hold, with the units that may go with each. */
export const MAPPABLE: readonly { meaning: Meaning; word: string; units: readonly string[] }[] = (
  [
    ['stage', []],
    ['power', ['W']],
    ['speed', ['km/h', 'm/s', 'm/min', 'mph']],
    ['pace', ['min/km', 'min/mile', 'min/500 m']],
    ['lactate', ['mmol/L']],
    ['heartRate', ['bpm']],
    ['rpe', []],
    ['duration', ['min', 's']],
    ['oxygenUptake', ['ml/min', 'L/min', 'ml/min/kg']],
    ['mass', ['kg', 'lb']],
    ['remark', []],
  ] satisfies [Meaning, string[]][]
).map(([meaning, units]) => ({ meaning, word: QUANTITIES[meaning].word, units }));

const EXAMPLES = 3;

/** What each column of a table was taken for. */
export const columnGuesses = ({ headings, rows }: GridValue): ColumnGuess[] =>
  headings.map((heading, index) => {
    const read = readHeading(heading);
    const entries = rows.map((row) => row[index]!.trim()).filter((entry) => entry !== '');
    return {
      heading,
      use: read && { meaning: read.meaning, unit: read.unit?.label || null },
      examples: entries.slice(0, EXAMPLES),
    };
  });

/** A heading that the readers take for this use, and that nobody reads for 'ignore'. */
function headingFor(use: ColumnUse | undefined, heading: string): string {
  if (use === undefined) return heading;
  // The heading stays in messages; with these words before it no reader knows it.
  if (use === 'ignore') return `not used: ${heading}`;
  const known = MAPPABLE.find(({ meaning }) => meaning === use.meaning);
  if (!known)
    throw new InputError(`"${use.meaning}" is nothing a column can be said to hold`, { field: heading });
  if (use.unit !== null && !known.units.includes(use.unit))
    throw new InputError(
      `"${use.unit}" is no unit of ${known.word}; expected ${known.units.join(', ') || 'none'}`,
      { field: heading },
    );
  const unit = use.unit ?? known.units[0];
  return unit === undefined ? known.word : `${known.word} (${unit})`;
}

/**
 * A table with its columns taken for what somebody said, for the same readers as any: those that the mapping leaves out
 * keep the reader's own guess.
 *
 * Throws    InputError for a meaning or unit that does not exist
 */
export const withMapping = <T extends Placed>(table: T, mapping: readonly (ColumnUse | undefined)[]): T => ({
  ...table,
  headings: table.headings.map((heading, index) => headingFor(mapping[index], heading)),
});

/** What became of a table: each column, each row that is not simply a stage or rep, and the table as a whole. */
export interface ReadReport {
  /** Columns in their order; one whose use is null, or whose remarks say so, was not used. */
  columns: (ColumnGuess & { remarks: string[] })[];
  rows: {
    total: number;
    /** Rows that were skipped, taken for something else, or cannot be read, by 0-based row, with the reason. */
    remarked: { row: number; line: number | null; remarks: string[] }[];
  };
  /** What keeps the table from being used. */
  problems: string[];
  /** What was decided about all of it, and the lines around it. */
  notes: string[];
}

/**
 * The report of a table from the marks that its check made (`checkStepTest`, `checkSession`): one place to show what was
 * read, what was skipped, and why.
 */
export function reportOf(table: Placed, marks: readonly GridMark[]): ReadReport {
  const texts = (row: number, column?: number) =>
    marks
      .filter((mark) => mark.row === row && (column ?? mark.column) === mark.column)
      .map(({ text }) => text);
  const remarked = table.rows.flatMap((entries, row) => {
    const blank = entries.every((entry) => entry.trim() === '');
    const remarks = blank ? ['nothing in it'] : texts(row);
    return remarks.length === 0 ? [] : [{ row, line: table.places?.[row]?.line ?? null, remarks }];
  });
  return {
    columns: columnGuesses(table).map((guess, column) => ({ ...guess, remarks: texts(-1, column) })),
    rows: { total: table.rows.length, remarked },
    problems: marks.filter(({ tone }) => tone === 'problem').map(({ text }) => text),
    notes: [
      ...(table.notes ?? []),
      ...marks
        .filter(({ tone, row, column }) => tone === 'note' && row + column === -2)
        .map(({ text }) => text),
    ],
  };
}
