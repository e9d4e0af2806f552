import type { GridMark, GridValue } from '../base/grid.ts';
import type { Axis, Sport } from '../base/units.ts';
import type { Rep, RepReading, Session } from '../physiology/training/session.ts';
import {
  type Column,
  chooseIntensity,
  columnsOf,
  filledRows,
  namedColumn,
  noteUnused,
  only,
} from './columns.ts';
import { type Delimited, readDelimited } from './delimited.ts';
import { EntryReader } from './entries.ts';
import { scaleOf } from './exertionScale.ts';
import { countingHeadings } from './headings.ts';
import { type Marks, marksOf, type Placed, readMarked } from './marks.ts';
import { decimalMark } from './numbers.ts';
import { QUANTITIES } from './quantities.ts';
import { readSigns, SIGN_NAMES } from './signs.ts';

/** Headings of the column that counts the reps. */
export const REP_NAMES = /^(reps?|repetition|interval|rep (no\.?|number))$/i;
/** What a length of the rep may be called, beside the names of a length of a stage. */
export const LENGTH_NAMES = /^(rep(etition)? )?(length|duration|time of work|work time)\b/i;
/** Headings of the column of warning signs. */
export const SIGNS_NAMES = /^(signs?|symptoms?|warning signs?)$/i;

/** Headings that a table of reps understands, beside those of intensity. */
export const SESSION_HEADINGS = [
  'rep',
  'duration (min)',
  'minute',
  'lactate (mmol/L)',
  'heart rate (bpm)',
  'RPE (6-20)',
  'signs',
];

/** What is known of a session's table besides its text. */
export interface SessionOptions {
  /** Guessed from the columns when absent, and noted. */
  sport?: Sport;
  /** Named in messages. */
  file?: string;
}

interface SessionColumns {
  rep: Column;
  intensity: Column | null;
  length: Column | null;
  minute: Column | null;
  lactate: Column | null;
  heartRate: Column | null;
  rpe: Column | null;
  signs: Column | null;
  sport: Sport;
  axis: Axis;
}

/** Columns by their headings, where a length of the rep reads as a duration. */
const ownColumns = ({ headings, rows }: GridValue): Column[] =>
  columnsOf({ headings: headings.map((text) => text.trim().replace(LENGTH_NAMES, 'duration')), rows }).map(
    (column) => ({ ...column, text: headings[column.index]! }),
  );

/** A column of times is the length of the rep when its heading says so, else the minute of the reading. */
function timeColumns(columns: Column[], marks: Marks) {
  const isTime = ({ meaning }: Column) => meaning === 'duration' || meaning === 'minute';
  const times = columns.filter(isTime).map((column): Column => ({ ...column, meaning: 'minute' }));
  const isLength = ({ name }: Column) => /duration|length/.test(name);
  const lengths = times.filter(isLength).map((column): Column => ({ ...column, meaning: 'duration' }));
  const minute = only(
    times.filter((column) => !isLength(column)),
    'minute',
    marks,
  );
  return {
    length: only(lengths, 'duration', marks),
    minute: minute && { ...minute, unit: minute.unit ?? QUANTITIES.minute.usual },
  };
}

/** How hard the reps were: an intensity, or heart rate alone when the sport is known. */
function intensityOf(columns: Column[], heartRate: Column | null, given: Sport | undefined, marks: Marks) {
  const hasIntensity = columns.some(({ meaning }) => ['power', 'speed', 'pace'].includes(meaning));
  if (hasIntensity || !heartRate || !given) return chooseIntensity(columns, given, marks);
  marks.note('no intensity; the session is judged by heart rate');
  return {
    intensity: null,
    sport: given,
    axis: given === 'running' ? ('speed' as const) : ('power' as const),
  };
}

const NO_TIME =
  'no column of time, so the length of the reps is not known; add a column duration (min) with the length of each rep, such as 8 or 8:00, or minute with the minute of the rep at which the sample was taken';

function findColumns(grid: GridValue, given: Sport | undefined, marks: Marks): SessionColumns | null {
  const rep = namedColumn(grid, REP_NAMES);
  const signs = namedColumn(grid, SIGNS_NAMES);
  const named = [rep, signs].flatMap((column) => column?.index ?? []);
  const columns = ownColumns(grid).filter(({ index }) => !named.includes(index));
  const times = timeColumns(columns, marks);
  const measured = {
    lactate: only(columns, 'lactate', marks),
    heartRate: only(columns, 'heartRate', marks),
    rpe: only(columns, 'rpe', marks),
  };
  const chosen = intensityOf(columns, measured.heartRate, given, marks);
  if (!rep) marks.problem('no column of reps; expected a heading such as rep');
  if (!times.minute && !times.length) marks.problem(NO_TIME);
  noteUnused(grid, [...columns, ...(rep ? [rep] : []), ...(signs ? [signs] : [])], marks);
  if (!rep || !chosen) return null;
  return { rep, signs, ...times, ...measured, ...chosen };
}

const NO_MINUTE = 'no time; expected the minute of the rep at which this was measured';
const NO_LENGTH = 'no time; expected the length of the rep, such as 8 or 8:00';

/** Reads rows into reps, in the order they stand. */
class RepRows {
  readonly reps: (Rep & { said: number | null })[] = [];
  readonly #entries: EntryReader;
  readonly #columns: SessionColumns;
  readonly #marks: Marks;

  constructor(grid: GridValue, columns: SessionColumns, marks: Marks) {
    this.#entries = new EntryReader(grid.rows, decimalMark(grid.rows.flat()), marks);
    this.#columns = columns;
    this.#marks = marks;
  }

  read(row: number): void {
    const rep = this.#repOf(row);
    if (!rep) return;
    const { intensity, length, signs } = this.#columns;
    this.#settle(row, rep, 'intensity', this.#entries.value(row, intensity), intensity);
    this.#settle(row, rep, 'said', this.#entries.value(row, length), length);
    const reading = this.#reading(row);
    this.#expectTime(row, rep, reading);
    rep.readings.push(reading);
    if (signs) rep.signs.push(...readSigns(this.#entries.text(row, signs), signs.index, row, this.#marks));
  }

  /** The rep that a row belongs to; rows follow one another as they were done. */
  #repOf(row: number): (Rep & { said: number | null }) | null {
    const { rep } = this.#columns;
    const entry = this.#entries.entry(row, rep);
    const last = this.reps.at(-1);
    if (entry.kind !== 'number' || !Number.isInteger(entry.value) || entry.value < 1) {
      const text = this.#entries.text(row, rep).trim();
      this.#marks.problem(`"${text}" is no rep; expected its number, such as 1`, rep.index, row);
      return null;
    }
    if (last?.number === entry.value) return last;
    if (last && entry.value < last.number) {
      this.#marks.problem(
        `rep ${entry.value} stands after rep ${last.number}; expected the reps in the order they were done`,
        rep.index,
        row,
      );
      return null;
    }
    const made = { number: entry.value, intensity: null, minutes: 0, said: null, readings: [], signs: [] };
    this.reps.push(made);
    return made;
  }

  /** What holds for a whole rep may stand in any of its rows, but not as two different things. */
  #settle(
    row: number,
    rep: Rep & { said: number | null },
    field: 'intensity' | 'said',
    value: number | null,
    column: Column | null,
  ): void {
    if (value === null) return;
    const word = field === 'intensity' ? 'intensity' : 'duration';
    if (rep[field] !== null && rep[field] !== value)
      this.#marks.problem(`a second ${word} in rep ${rep.number}; expected one`, column!.index, row);
    rep[field] = value;
  }

  #reading(row: number): RepReading {
    const { minute, lactate, heartRate, rpe } = this.#columns;
    const value = (column: Column | null) => this.#entries.value(row, column);
    return {
      row,
      minute: value(minute),
      lactate: value(lactate),
      heartRate: value(heartRate),
      rpe: value(rpe),
    };
  }

  #expectTime(row: number, rep: Rep & { said: number | null }, { minute, lactate }: RepReading): void {
    const column = (this.#columns.minute ?? this.#columns.length)!.index;
    if (minute === null && (lactate !== null || rep.said === null)) {
      // With a length alone the sample was taken at the end, as is usual.
      if (rep.said !== null && !this.#columns.minute) return;
      this.#marks.problem(this.#columns.minute ? NO_MINUTE : NO_LENGTH, column, row);
    }
    const before = rep.readings.findLast((reading) => reading.minute !== null)?.minute;
    if (minute !== null && before != null && minute <= before)
      this.#marks.problem(
        `minute ${minute} stands after minute ${before} of the same rep; expected rising minutes`,
        column,
        row,
      );
  }
}

/** Length of a rep: as said, else up to its last reading. A reading soon after the end counts as at the end. */
function finished({ said, ...rep }: Rep & { said: number | null }): Rep {
  const minutes = said ?? Math.max(...rep.readings.map(({ minute }) => minute ?? 0));
  const readings = rep.readings.map((reading) => ({
    ...reading,
    minute: reading.minute === null ? minutes : Math.min(reading.minute, minutes),
  }));
  return { ...rep, minutes, readings };
}

/** A reading longer than this after the end of its rep is none of the rep, min (our rule). */
const AFTER_END = 2;

function checkReps(reps: readonly (Rep & { said: number | null })[], columns: SessionColumns, marks: Marks) {
  for (const { said, number, intensity, readings } of reps) {
    for (const { minute, row } of readings) {
      if (said !== null && minute !== null && minute > said + AFTER_END)
        marks.problem(
          `minute ${minute} of a rep of ${said} min; expected a minute of the rep`,
          columns.minute!.index,
          row,
        );
    }
    if (columns.intensity && intensity === null)
      marks.problem(
        `rep ${number} has no intensity; expected one in its first row`,
        columns.intensity.index,
        readings[0]!.row,
      );
  }
}

function readTable(grid: GridValue, options: SessionOptions, marks: Marks): Session | null {
  const columns = findColumns(grid, options.sport, marks);
  if (!columns || marks.broken) return null;
  const rows = new RepRows(grid, columns, marks);
  for (const row of filledRows(grid)) rows.read(row);
  checkReps(rows.reps, columns, marks);
  const reps = rows.reps.map(finished);
  const exertionScale = scaleOf(reps, columns.rpe, marks);
  if (reps.length === 0 && !marks.broken) marks.problem('no reps; expected a row for each');
  if (marks.broken) return null;
  return { sport: columns.sport, axis: columns.axis, reps, exertionScale, notes: [] };
}

/**
 * A session of intervals from a table: a row for each rep, or for each reading of a rep. A time called duration is the
 * length of the rep, any other the minute of the reading; with a length alone readings were taken at the end.
 *
 * Throws    InputError for the first problem; `checkSession` tells all of them
 */
export function readSession(grid: Placed, options: SessionOptions = {}): Session {
  const { value, notes } = readMarked(grid, options.file, (marks) => readTable(grid, options, marks));
  return { ...value, notes };
}

/** Everything that is wrong or had to be decided in a table of reps. */
export const checkSession = (grid: GridValue, options: SessionOptions = {}): GridMark[] =>
  marksOf((marks) => readTable(grid, options, marks));

const isOwnHeading = (entry: string) => REP_NAMES.test(entry) || SIGNS_NAMES.test(entry);

/** The table of reps in a text. */
export const readSessionTable = (text: string, file?: string): Delimited =>
  readDelimited(text, {
    file,
    countHeadings: countingHeadings(isOwnHeading),
    expected: 'headings such as rep, power (W), minute, lactate (mmol/L)',
  });

export { SIGN_NAMES };
