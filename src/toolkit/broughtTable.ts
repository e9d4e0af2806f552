// What became of a table that somebody brought, and what its columns are said to hold.
import type { BroughtText, GridValue, HeadingsSaid, TableSource } from '../base/grid.ts';
import * as accounts from '../data-in/accounts.ts';
import { accountInWords } from '../data-in/accountWords.ts';
import { readBoutTable } from '../data-in/bouts.ts';
import { COLUMN_KINDS, type ColumnKind } from '../data-in/columnKinds.ts';
import { quote } from '../data-in/columns.ts';
import type { Delimited } from '../data-in/delimited.ts';
import { readEffortTable } from '../data-in/efforts.ts';
import { namedByUnit } from '../data-in/fromText.ts';
import { readTableSaid } from '../data-in/headingsSaid.ts';
import { type ColumnTaken, type Correction, columnsTaken, withUse } from '../data-in/mapping.ts';
import { decimalMark } from '../data-in/numbers.ts';
import { readPairTable } from '../data-in/pairs.ts';
import { readRecoveryTable } from '../data-in/recovery.ts';
import { readSessionTable } from '../data-in/session.ts';
import { readStageTable, TURNED } from '../data-in/stages.ts';
import { type TestInTable, testsInTable } from '../data-in/testsInTable.ts';
import { readTrainingTable } from '../data-in/trainingList.ts';
import { isNumbered, readNamedOrNot } from '../data-in/unnamed.ts';
import type { RowsRead } from '../view/controls.ts';

export type { ColumnKind } from '../data-in/columnKinds.ts';
export { type HeadingLine, headingLines } from '../data-in/headingsSaid.ts';
export type { ColumnTaken, Correction } from '../data-in/mapping.ts';
export type { TestInTable } from '../data-in/testsInTable.ts';

interface Reader {
  read(text: string, file?: string): Delimited;
  account(value: GridValue, rows: RowsRead): accounts.Account;
}

const READERS: Record<RowsRead['of'], Reader> = {
  stages: { read: readStageTable, account: accounts.accountOfStages },
  reps: { read: readSessionTable, account: accounts.accountOfReps },
  efforts: { read: readEffortTable, account: accounts.accountOfEfforts },
  training: { read: readTrainingTable, account: accounts.accountOfTraining },
  bouts: { read: readBoutTable, account: accounts.accountOfBouts },
  recovery: { read: readRecoveryTable, account: accounts.accountOfRecovery },
  pairs: { read: readPairTable, account: accounts.accountOfPairs },
};

/** Notes beside a table that are shown; a page of them is told by its length. */
const NOTES_SHOWN = 3;

function notesInWords(notes: readonly string[]): string[] {
  if (notes.length === 0) return [];
  const more = notes.length > NOTES_SHOWN ? `, and ${notes.length - NOTES_SHOWN} more` : '';
  return [`Beside the table: ${notes.slice(0, NOTES_SHOWN).map(quote).join(', ')}${more}.`];
}

function headingsInWords(at: HeadingsSaid, said: boolean): string {
  if (at === 'none')
    return `${said ? 'no headings, as you said' : 'no headings found'}, so the columns are numbered`;
  return `headings in line ${at}${said ? ', as you said' : ''}`;
}

/**
 * A table from text that somebody brought, its headings where they are found or where somebody says. Columns with a heading
 * that nobody here knows are taken for what their unit tells, if one can be meant alone; the rest waits for the reader's
 * word.
 *
 * Throws    InputError for a text that holds no table
 */
export function bringTable(
  brought: BroughtText,
  { of }: RowsRead,
  said?: HeadingsSaid,
): { value: GridValue; source: TableSource } {
  const { text, name, notes = [] } = brought;
  const isSaid = said !== undefined;
  const table = isSaid ? readTableSaid(text, said, name) : readNamedOrNot(READERS[of].read, text, name);
  const headingsAt = isNumbered(table) ? 'none' : table.headingPlace.line;
  const { headings, guessed } = namedByUnit(table, COLUMN_KINDS[of]);
  const about = [
    `${name ?? 'The text'}: ${headingsInWords(headingsAt, isSaid)}.`,
    ...(table.isTurned ? [TURNED] : []),
    ...(decimalMark(table.rows.flat()) === ',' ? ['Numbers have a decimal comma.'] : []),
    ...notesInWords(table.notes),
    ...notes,
  ];
  return {
    value: { headings, rows: table.rows },
    source: {
      brought,
      headingsAt,
      headings: table.headings,
      guessed,
      about,
    },
  };
}

/** What the columns of such a table may be said to hold. */
export const kindsFor = ({ of }: RowsRead): readonly ColumnKind[] => COLUMN_KINDS[of];

/** The tests that stand in a table together, for somebody to take one; none in other tables. */
export const testsIn = (value: GridValue, { of }: RowsRead): TestInTable[] =>
  of === 'stages' ? testsInTable(value) : [];

/** What each column of the table is taken for. */
export const columnsIn = (value: GridValue, { of }: RowsRead): ColumnTaken[] =>
  columnsTaken(value, COLUMN_KINDS[of]);

/** The table with one column said to hold something else. */
export const corrected = (value: GridValue, { of }: RowsRead, correction: Correction): GridValue =>
  withUse(value, COLUMN_KINDS[of], correction);

/**
 * What is read of the table as it stands, and what is left out, in sentences.
 *
 * Throws    InputError while it cannot be read
 */
export const accountOf = (value: GridValue, rows: RowsRead): string =>
  accountInWords(READERS[rows.of].account(value, rows), value.rows.length);
