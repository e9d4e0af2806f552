import type { GridMark, GridValue } from '../base/grid.ts';
import { type Axis, ergometerPower, type Sport } from '../base/units.ts';
import type { BestEffort, BestEfforts, EffortKind } from '../physiology/training/bestEfforts.ts';
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

/** Headings of the column that tells a time trial from an effort to exhaustion. */
export const KIND_NAMES = /^(kind|type|kind of effort|effort)$/i;
const KINDS: Record<string, EffortKind> = {
  'time trial': 'time-trial',
  'time-trial': 'time-trial',
  tt: 'time-trial',
  race: 'time-trial',
  'all out': 'time-trial',
  'to exhaustion': 'exhaustion',
  exhaustion: 'exhaustion',
  tte: 'exhaustion',
};

/** Headings that a table of best efforts understands, beside those of intensity. */
export const EFFORT_HEADINGS = ['time (min)', 'kind'];

/** What is known of a table of best efforts besides its text. */
export interface EffortOptions {
  /** Guessed from the columns when absent, and noted. */
  sport?: Sport;
  /** What the intensities are to be compared with; a rowing distance becomes power where that is wanted. */
  axis?: Axis;
  /** How the efforts were done where the table does not say; 'time-trial' without it. */
  kind?: EffortKind;
  /** Named in messages. */
  file?: string;
}

interface EffortColumns {
  time: Column;
  /** Mean intensity; null when distances tell it throughout. */
  intensity: Column | null;
  distance: Column | null;
  kind: Column | null;
  sport: Sport;
  axis: Axis;
}

/** Meanings that tell the intensity itself, by sport. */
const TELLING: Record<Sport, readonly string[]> = {
  cycling: ['power'],
  running: ['speed', 'pace'],
  rowing: ['power', 'speed', 'pace'],
};

/** A distance serves in the rows that have no intensity; in cycling it says too little. */
function findColumns(grid: GridValue, options: EffortOptions, marks: Marks): EffortColumns | null {
  const columns = columnsOf(grid, { distances: true });
  const time = timeColumn(columns, marks);
  const kind = namedColumn(grid, KIND_NAMES);
  const distance = options.sport === 'cycling' ? null : only(columns, 'distance', marks);
  noteUnused(grid, [...columns, ...(kind ? [kind] : [])], marks);
  if (distance && !distance.unit)
    marks.problem(`"${distance.text}" does not say its unit; expected m, km or mile`, distance.index);
  const telling = TELLING[options.sport ?? 'rowing'];
  if (distance && !columns.some(({ meaning }) => telling.includes(meaning))) {
    const sport = options.sport ?? 'running';
    return time && { time, intensity: null, distance, kind, sport, axis: 'speed' };
  }
  const chosen = chooseIntensity(columns, options.sport, marks);
  if (!chosen || !time) return null;
  // A distance gives a speed, which is nothing beside power.
  return { time, distance: chosen.axis === 'speed' ? distance : null, kind, ...chosen };
}

function readKind(grid: GridValue, row: number, column: Column | null, marks: Marks): EffortKind | null {
  const text = column ? grid.rows[row]![column.index]!.trim().toLowerCase() : '';
  if (text === '') return null;
  if (Object.hasOwn(KINDS, text)) return KINDS[text]!;
  marks.problem(`"${text}" is no kind of effort; expected time trial or to exhaustion`, column!.index, row);
  return null;
}

/** One effort; null while time or intensity is missing, and then that is marked. */
function readEffort(
  entries: EntryReader,
  row: number,
  columns: EffortColumns,
  marks: Marks,
): BestEffort | null {
  const { time } = columns;
  const isMissing = (column: Column | null) =>
    column === null || entries.entry(row, column).kind === 'missing';
  const byDistance = isMissing(columns.intensity) && columns.distance !== null;
  const measured = (byDistance ? columns.distance : columns.intensity)!;
  const minutes = entries.value(row, time);
  const value = entries.value(row, measured);
  if (isMissing(time)) marks.problem('no time; expected the time of every effort', time.index, row);
  if (isMissing(measured))
    marks.problem(
      `no ${byDistance ? 'distance' : 'intensity'}; expected one for every effort`,
      measured.index,
      row,
    );
  if (minutes === null || value === null) return null;
  const speed = (value / 1000 / minutes) * 60;
  if (byDistance && speed > 45) {
    marks.problem(
      `${Math.round(value)} m in ${minutes} min is a speed of ${speed.toFixed(0)} km/h; expected at most 45`,
      time.index,
      row,
    );
    return null;
  }
  return { row, seconds: 60 * minutes, intensity: byDistance ? speed : value };
}

/** All efforts must have been done the same way: what carries the error differs. */
function commonKind(
  kinds: Set<EffortKind>,
  column: Column | null,
  marks: Marks,
  otherwise: EffortKind,
): EffortKind {
  if (kinds.size > 1)
    marks.problem(
      'both time trials and efforts to exhaustion; expected one kind, for they cannot be fitted together',
      column!.index,
    );
  return [...kinds][0] ?? otherwise;
}

function readTable(grid: GridValue, options: EffortOptions, marks: Marks): BestEfforts | null {
  const columns = findColumns(grid, options, marks);
  if (!columns) return null;
  const entries = new EntryReader(grid.rows, decimalMark(grid.rows.flat()), marks);
  const rows = filledRows(grid);
  const kinds = new Set<EffortKind>();
  const efforts = rows.flatMap((row) => {
    const kind = readKind(grid, row, columns.kind, marks);
    if (kind) kinds.add(kind);
    return readEffort(entries, row, columns, marks) ?? [];
  });
  const kind = commonKind(kinds, columns.kind, marks, options.kind ?? 'time-trial');
  if (efforts.length === 0 && !marks.broken) marks.problem('no efforts; expected a row for each');
  if (marks.broken) return null;
  const toPower = options.axis === 'power' && columns.axis === 'speed' && columns.sport === 'rowing';
  return {
    sport: columns.sport,
    axis: toPower ? 'power' : columns.axis,
    kind,
    efforts: efforts
      .map((effort) => (toPower ? { ...effort, intensity: ergometerPower(effort.intensity) } : effort))
      .sort((a, b) => a.seconds - b.seconds),
    notes: [],
  };
}

/**
 * Best efforts from a table with a row for each: its time, its mean power, speed or pace, or its distance, and perhaps
 * whether it was a time trial or held to exhaustion.
 *
 * Throws    InputError for the first problem; `checkEfforts` tells all of them
 */
export function readEfforts(grid: Placed, options: EffortOptions = {}): BestEfforts {
  const { value, notes } = readMarked(grid, options.file, (marks) => readTable(grid, options, marks));
  return { ...value, notes };
}

/** Everything that is wrong or had to be decided in a table of best efforts. */
export const checkEfforts = (grid: GridValue, options: EffortOptions = {}): GridMark[] =>
  marksOf((marks) => readTable(grid, options, marks));

/** The table of best efforts in a text. */
export const readEffortTable = (text: string, file?: string): Delimited =>
  readDelimited(text, {
    file,
    countHeadings: countingHeadings((entry) => KIND_NAMES.test(entry)),
    expected: 'headings such as time (min), power (W), kind',
  });
