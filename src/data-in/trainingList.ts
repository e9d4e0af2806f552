import type { GridMark, GridValue } from '../base/grid.ts';
import type { Axis, Sport } from '../base/units.ts';
import type { Goal, TrainingPiece } from '../physiology/training/timeInZone.ts';
import {
  type Column,
  chooseIntensity,
  columnsOf,
  filledRows,
  namedColumn,
  noteUnused,
  only,
  timeColumn,
} from './columns.ts';
import { type Delimited, readDelimited } from './delimited.ts';
import { EntryReader } from './entries.ts';
import { countingHeadings } from './headings.ts';
import { type Marks, marksOf, type Placed, readMarked } from './marks.ts';
import { decimalMark } from './numbers.ts';
import { ELAPSED_NAMES, piecesOfRecording } from './recording.ts';

/** Headings of the column that tells which pieces of training belong together. */
export const SESSION_NAMES = /^(session|day|date|training|workout)$/i;
/** Headings of the column that tells what a piece of training was meant as. */
export const GOAL_NAMES = /^(goal|meant as|aim|zone)$/i;
const GOALS: Record<string, Goal> = {
  easy: 'easy',
  '1': 'easy',
  threshold: 'threshold',
  '2': 'threshold',
  hard: 'hard',
  '3': 'hard',
};

/** Headings that a list of training understands, beside those of intensity. */
export const TRAINING_HEADINGS = ['session', 'time (min)', 'heart rate (bpm)', 'goal'];

/** What is known of a list of training besides its text. */
export interface TrainingOptions {
  /** Guessed from the columns when absent, and noted. */
  sport?: Sport;
  /** Named in messages. */
  file?: string;
}

/** A session or a week as pieces. */
export interface TrainingList {
  /** Null when only heart rate was recorded. */
  axis: Axis | null;
  pieces: TrainingPiece[];
}

interface TrainingColumns {
  time: Column;
  intensity: Column | null;
  heartRate: Column | null;
  session: Column | null;
  goal: Column | null;
  axis: Axis | null;
}

function findColumns(grid: GridValue, options: TrainingOptions, marks: Marks): TrainingColumns | null {
  const columns = columnsOf(grid);
  const time = timeColumn(columns, marks);
  const heartRate = only(columns, 'heartRate', marks);
  const [session, goal] = [namedColumn(grid, SESSION_NAMES), namedColumn(grid, GOAL_NAMES)];
  noteUnused(grid, [...columns, ...[session, goal].filter((column) => column !== null)], marks);
  const hasIntensity = columns.some(({ meaning }) => ['power', 'speed', 'pace'].includes(meaning));
  if (!hasIntensity && heartRate)
    return time && { time, intensity: null, heartRate, session, goal, axis: null };
  const chosen = chooseIntensity(columns, options.sport, marks);
  return chosen && time && { time, intensity: chosen.intensity, heartRate, session, goal, axis: chosen.axis };
}

function readGoal(grid: GridValue, row: number, column: Column | null, marks: Marks): Goal | null {
  const text = column ? grid.rows[row]![column.index]!.trim().toLowerCase() : '';
  if (text === '') return null;
  if (Object.hasOwn(GOALS, text)) return GOALS[text]!;
  marks.problem(`"${text}" is no goal of a session; expected easy, threshold or hard`, column!.index, row);
  return null;
}

/** Standing still or rolling is training time too, at no intensity. */
const isStandstill = (entries: EntryReader, row: number, column: Column | null): boolean => {
  const entry = column && entries.entry(row, column);
  return entry?.kind === 'number' && entry.value === 0;
};

function readPiece(
  grid: GridValue,
  entries: EntryReader,
  row: number,
  columns: TrainingColumns,
  marks: Marks,
): TrainingPiece | null {
  const { time, intensity, heartRate, session, goal } = columns;
  const minutes = entries.value(row, time);
  if (entries.entry(row, time).kind === 'missing')
    marks.problem('no time; expected how long each piece of training took', time.index, row);
  const piece = {
    row,
    session: session ? grid.rows[row]![session.index]!.trim() || null : null,
    intensity: isStandstill(entries, row, intensity) ? 0 : entries.value(row, intensity),
    heartRate: entries.value(row, heartRate),
    goal: readGoal(grid, row, goal, marks),
  };
  return minutes === null ? null : { ...piece, minutes };
}

function readTable(grid: GridValue, options: TrainingOptions, marks: Marks): TrainingList | null {
  const columns = findColumns(grid, options, marks);
  if (!columns) return null;
  const entries = new EntryReader(grid.rows, decimalMark(grid.rows.flat()), marks);
  const rows = filledRows(grid);
  const pieces = rows.flatMap((row) => readPiece(grid, entries, row, columns, marks) ?? []);
  if (pieces.length === 0 && !marks.broken) marks.problem('no training; expected a row for each piece of it');
  return marks.broken ? null : { axis: columns.axis, pieces };
}

/**
 * A session or a week from a table with a row for each piece of training: its time, its power, speed, pace or heart rate,
 * and perhaps the session that it belongs to and what that was meant to be.
 *
 * Throws    InputError for the first problem; `checkTraining` tells all of them
 */
export function readTraining(
  grid: Placed,
  options: TrainingOptions = {},
): TrainingList & { notes: string[] } {
  const { value, notes } = readMarked(grid, options.file, (marks) => readTable(grid, options, marks));
  return { ...value, notes };
}

/** Everything that is wrong or had to be decided in a list of training. */
export const checkTraining = (grid: GridValue, options: TrainingOptions = {}): GridMark[] =>
  marksOf((marks) => readTable(grid, options, marks));

const isOwnHeading = (entry: string) =>
  [SESSION_NAMES, GOAL_NAMES, ELAPSED_NAMES].some((names) => names.test(entry));

/** The list of training in a text; a recording becomes a list of pieces (see `piecesOfRecording`). */
export function readTrainingTable(text: string, file?: string): Delimited {
  const table = readDelimited(text, {
    file,
    countHeadings: countingHeadings(isOwnHeading),
    expected: 'headings such as session, time (min), power (W), heart rate (bpm), goal',
  });
  const pieces = piecesOfRecording(table);
  if (pieces === table) return table;
  // The pieces stand in no line of the text: what is wrong with one is told by its row.
  const place = { line: table.headingPlace.line, columns: [] };
  return { ...table, ...pieces, headingPlace: place, places: pieces.rows.map(() => place) };
}
