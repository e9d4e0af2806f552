import type { GridMark, GridValue } from '../base/grid.ts';
import type { Sport } from '../base/units.ts';
import type { Bout, BoutTest } from '../physiology/stepTest.ts';
import {
  type Column,
  chooseIntensity,
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

/** Headings of the column that tells whether a bout was completed. */
export const COMPLETED_NAMES = /^(completed|complete|finished)$/i;
const ANSWERS: Record<string, boolean> = {
  yes: true,
  y: true,
  true: true,
  1: true,
  no: false,
  n: false,
  false: false,
  0: false,
};

/** Headings that a table of bouts understands, beside those of intensity. */
export const BOUT_HEADINGS = ['minute', 'lactate (mmol/L)', 'completed'];

/** What is known of a table of bouts besides its text. */
export interface BoutOptions {
  /** Guessed from the columns when absent, and noted. */
  sport?: Sport;
  bodyMass?: number | null;
  /** Named in messages. */
  file?: string;
}

interface BoutColumns {
  intensity: Column;
  minute: Column;
  lactate: Column;
  completed: Column | null;
}

/** Whether a row says that its bout was completed; null when it says nothing. */
function readCompleted(grid: GridValue, row: number, column: Column | null, marks: Marks): boolean | null {
  const text = column ? grid.rows[row]![column.index]!.trim().toLowerCase() : '';
  if (text === '') return null;
  if (Object.hasOwn(ANSWERS, text)) return ANSWERS[text]!;
  marks.problem(
    `"${text}" does not say whether the bout was completed; expected yes or no`,
    column!.index,
    row,
  );
  return null;
}

/** Reads one row into its bout; rows of the same intensity are one bout. */
class BoutRows {
  readonly bouts = new Map<number, Bout>();
  readonly #grid: GridValue;
  readonly #entries: EntryReader;
  readonly #columns: BoutColumns;
  readonly #marks: Marks;

  constructor(grid: GridValue, columns: BoutColumns, marks: Marks) {
    this.#grid = grid;
    this.#entries = new EntryReader(grid.rows, decimalMark(grid.rows.flat()), marks);
    this.#columns = columns;
    this.#marks = marks;
  }

  read(row: number): void {
    const { intensity, completed } = this.#columns;
    const at = this.#entries.value(row, intensity);
    if (at === null) {
      this.#marks.problem('no intensity; expected one in every row', intensity.index, row);
      return;
    }
    const bout = this.bouts.get(at) ?? { intensity: at, samples: [], completed: null };
    this.bouts.set(at, bout);
    const done = readCompleted(this.#grid, row, completed, this.#marks);
    if (done !== null && bout.completed !== null && done !== bout.completed)
      this.#marks.problem('this bout is said to be completed and not completed', completed!.index, row);
    bout.completed = done ?? bout.completed;
    this.#readSample(row, bout);
  }

  #readSample(row: number, bout: Bout): void {
    const { minute, lactate } = this.#columns;
    const time = this.#entries.value(row, minute);
    const value = this.#entries.value(row, lactate);
    if (value === null) return;
    if (time === null) this.#marks.problem('no minute; expected the minute of the bout', minute.index, row);
    else if (bout.samples.some((sample) => sample.minute === time))
      this.#marks.problem(`a second sample at minute ${time} of this bout`, minute.index, row);
    else bout.samples.push({ row, minute: time, lactate: value });
  }
}

function readTable(grid: GridValue, options: BoutOptions, marks: Marks): BoutTest | null {
  const columns = columnsOf(grid);
  const chosen = chooseIntensity(columns, options.sport, marks);
  const minute = minuteColumn(columns, marks);
  const lactate = only(columns, 'lactate', marks);
  const completed = namedColumn(grid, COMPLETED_NAMES);
  if (!lactate) marks.problem('no column of lactate; expected a heading such as lactate (mmol/L)');
  noteUnused(grid, [...columns, ...(completed ? [completed] : [])], marks);
  if (!chosen || !minute || !lactate) return null;
  const { intensity, sport, axis } = chosen;
  const reader = new BoutRows(grid, { intensity, minute, lactate, completed }, marks);
  for (const row of filledRows(grid)) reader.read(row);
  const bouts = [...reader.bouts.values()];
  if (bouts.every((bout) => bout.samples.length === 0) && !marks.broken)
    marks.problem('no samples; expected a row for each sample of each bout');
  if (marks.broken) return null;
  return { protocol: 'bouts', sport, axis, bouts, bodyMass: options.bodyMass ?? null, notes: [] };
}

/**
 * Bouts at constant intensity from a table with a row for each sample: intensity, minute of the bout, lactate, and
 * perhaps whether the bout was completed.
 *
 * Throws    InputError for the first problem; `checkBouts` tells all of them
 */
export function readBouts(grid: Placed, options: BoutOptions = {}): BoutTest {
  const { value, notes } = readMarked(grid, options.file, (marks) => readTable(grid, options, marks));
  return { ...value, notes };
}

/** Everything that is wrong or had to be decided in a table of bouts. */
export const checkBouts = (grid: GridValue, options: BoutOptions = {}): GridMark[] =>
  marksOf((marks) => readTable(grid, options, marks));

/** The table of bouts in a text. */
export const readBoutTable = (text: string, file?: string): Delimited =>
  readDelimited(text, {
    file,
    countHeadings: countingHeadings((entry) => COMPLETED_NAMES.test(entry)),
    expected: 'headings such as power (W), minute, lactate (mmol/L), completed',
  });
