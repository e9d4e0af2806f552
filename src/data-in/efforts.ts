import type { GridMark, GridValue } from '../base/grid.ts';
import { type Axis, ergometerPower, type Sport } from '../base/units.ts';
import type { BestEffort, BestEfforts, EffortKind } from '../physiology/training/bestEfforts.ts';
import {
  type Column,
  chooseIntensity,
  columnsOf,
  namedColumn,
  noteUnused,
  only,
  timeColumn,
} from './columns.ts';
import { type Delimited, readDelimited } from './delimited.ts';
import { EntryReader } from './entries.ts';
import { readHeading } from './headings.ts';
import { Marks, type Placed, readMarked } from './marks.ts';
import { decimalMark } from './numbers.ts';

const KIND_NAMES = /^(kind|type|kind of effort|effort)$/i;
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
  /** Mean intensity, or null when the distance tells it. */
  intensity: Column | null;
  distance: Column | null;
  kind: Column | null;
  sport: Sport;
  axis: Axis;
}

/** A distance serves where no intensity is given; with both, the intensity is taken. */
function findColumns(grid: GridValue, options: EffortOptions, marks: Marks): EffortColumns | null {
  const columns = columnsOf(grid, { distances: true });
  const time = timeColumn(columns, marks);
  const distance = only(columns, 'distance', marks);
  const kind = namedColumn(grid, KIND_NAMES);
  const hasIntensity = columns.some(({ meaning }) => ['power', 'speed', 'pace'].includes(meaning));
  noteUnused(grid, [...columns, ...(kind ? [kind] : [])], marks);
  if (distance && !hasIntensity && options.sport !== 'cycling') {
    if (!distance.unit)
      marks.problem(`"${distance.text}" does not say its unit; expected m, km or mile`, distance.index);
    const sport = options.sport ?? 'running';
    return time && { time, intensity: null, distance, kind, sport, axis: 'speed' };
  }
  const chosen = chooseIntensity(columns, options.sport, marks);
  return chosen && time && { time, distance: null, kind, ...chosen };
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
  const { time, intensity, distance } = columns;
  const minutes = entries.value(row, time);
  const value = entries.value(row, intensity ?? distance);
  if (entries.entry(row, time).kind === 'missing')
    marks.problem('no time; expected the time of every effort', time.index, row);
  const measured = (intensity ?? distance)!;
  if (entries.entry(row, measured).kind === 'missing')
    marks.problem(
      `no ${intensity ? 'intensity' : 'distance'}; expected one for every effort`,
      measured.index,
      row,
    );
  if (minutes === null || value === null) return null;
  const speed = intensity ? value : (value / 1000 / minutes) * 60;
  if (!intensity && !(speed <= 45)) {
    marks.problem(
      `${Math.round(value)} m in ${minutes} min is a speed of ${speed.toFixed(0)} km/h; expected at most 45`,
      time.index,
      row,
    );
    return null;
  }
  return { row, seconds: 60 * minutes, intensity: speed };
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
  const rows = grid.rows.flatMap((row, i) => (row.every((text) => text.trim() === '') ? [] : [i]));
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
export function checkEfforts(grid: GridValue, options: EffortOptions = {}): GridMark[] {
  const marks = new Marks();
  readTable(grid, options, marks);
  return marks.list;
}

/** The table of best efforts in a text. */
export const readEffortTable = (text: string, file?: string): Delimited =>
  readDelimited(text, {
    file,
    countHeadings: (entries) =>
      entries.filter((entry) => KIND_NAMES.test(entry.trim()) || readHeading(entry) !== null).length,
    expected: 'headings such as time (min), power (W), kind',
  });
