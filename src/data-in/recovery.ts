import type { GridMark, GridValue } from '../base/grid.ts';
import type { Recovery, RecoveryMode } from '../physiology/stepTest.ts';
import {
  type Column,
  columnsOf,
  filledRows,
  minuteColumn,
  namedColumn,
  noteUnused,
  only,
} from './columns.ts';
import { type Delimited, readDelimited } from './delimited.ts';
import { EntryReader } from './entries.ts';
import { countingHeadings } from './headings.ts';
import { type Marks, marksOf, type Placed, readMarked } from './marks.ts';
import { decimalMark } from './numbers.ts';

/** Headings of the column that tells active from passive recovery. */
export const MODE_NAMES = /^(mode|recovery mode|recovery type|type)$/i;
const MODES: Record<string, RecoveryMode> = {
  passive: 'passive',
  rest: 'passive',
  resting: 'passive',
  seated: 'passive',
  active: 'active',
  moving: 'active',
  easy: 'active',
};

/** Headings that a table of recovery samples understands. */
export const RECOVERY_HEADINGS = ['minute', 'lactate (mmol/L)', 'mode'];

function readModes(
  grid: GridValue,
  rows: number[],
  column: Column | null,
  marks: Marks,
): RecoveryMode | null {
  if (!column) return null;
  const found = new Set<RecoveryMode>();
  for (const row of rows) {
    const text = grid.rows[row]![column.index]!.trim();
    if (text === '') continue;
    const mode = Object.hasOwn(MODES, text.toLowerCase()) ? MODES[text.toLowerCase()]! : null;
    if (mode === null)
      marks.problem(`"${text}" is no kind of recovery; expected passive or active`, column.index, row);
    else found.add(mode);
  }
  if (found.size > 1) marks.problem('both passive and active recovery; expected one of them', column.index);
  return [...found][0] ?? null;
}

function readTable(grid: GridValue, marks: Marks): Recovery | null {
  const columns = columnsOf(grid);
  const minute = minuteColumn(columns, marks);
  const lactate = only(columns, 'lactate', marks);
  const mode = namedColumn(grid, MODE_NAMES);
  if (!lactate) marks.problem('no column of lactate; expected a heading such as lactate (mmol/L)');
  noteUnused(grid, [...columns, ...(mode ? [mode] : [])], marks);
  if (!minute || !lactate) return null;
  const entries = new EntryReader(grid.rows, decimalMark(grid.rows.flat()), marks);
  const rows = filledRows(grid);
  const samples = rows.flatMap((row) => {
    const at = entries.value(row, minute);
    const value = entries.value(row, lactate);
    if (at === null)
      marks.problem('no minute; expected the minutes since the end of the test', minute.index, row);
    return at === null || value === null ? [] : [{ row, minute: at, lactate: value }];
  });
  if (samples.length === 0 && !marks.broken) marks.problem('no recovery samples; expected a row for each');
  const recovery = { samples, mode: readModes(grid, rows, mode, marks) };
  return marks.broken ? null : recovery;
}

/**
 * Samples after the end of a test: columns of minutes since the end and of lactate, and perhaps of the kind of
 * recovery (passive, active).
 *
 * Throws    InputError for the first problem; `checkRecovery` tells all of them
 */
export const readRecovery = (grid: Placed, file?: string): Recovery & { notes: string[] } => {
  const { value, notes } = readMarked(grid, file, (marks) => readTable(grid, marks));
  return { ...value, notes };
};

/** Everything that is wrong or had to be decided in a table of recovery samples. */
export const checkRecovery = (grid: GridValue): GridMark[] => marksOf((marks) => readTable(grid, marks));

/** The table of recovery samples in a text. */
export const readRecoveryTable = (text: string, file?: string): Delimited =>
  readDelimited(text, {
    file,
    countHeadings: countingHeadings((entry) => MODE_NAMES.test(entry)),
    expected: 'headings such as minute, lactate (mmol/L), mode',
  });
