import { speedFor } from '../base/units.ts';
import type { Column } from './columns.ts';
import { markedReading } from './markedReadings.ts';
import type { Marks } from './marks.ts';
import { type DecimalMark, type Entry, readEntry } from './numbers.ts';
import { type Meaning, QUANTITIES, type Quantity, type Unit, unitNamed } from './quantities.ts';
import { MG_PER_DL } from './unitSpellings.ts';

/** Bare numbers up to here are minutes in a duration column that names no unit; above it they may be seconds. */
const LONGEST_BARE_MINUTES = 20;

/** Meanings that are a time, and may be written as a clock. */
const TIMES: readonly Meaning[] = ['duration', 'minute', 'longTime'];

interface Reading {
  value: number | null;
  problem: string | null;
  /** What the entry was in, where that is only a factor away from the quantity's own unit. */
  unit?: Unit | null;
}

const fault = (problem: string): Reading => ({ value: null, problem });
/** An entry as messages show it, its beginning where it is long. */
function quoted(text: string): string {
  const entry = text.trim();
  return entry.length > 60 ? `"${entry.slice(0, 60)}…"` : `"${entry}"`;
}

function expected(quantity: Quantity): string {
  const unit = quantity.unit === '' ? '' : ` in ${quantity.unit}`;
  return `expected ${quantity.word}${unit}, such as ${quantity.example}`;
}

function expectedPace(unit: Unit): string {
  return `expected a pace in ${unit.label}, such as ${unit.metres === 500 ? '1:52.5' : '4:30'}`;
}

/** The unit an entry carries itself goes before that of the heading. */
function unitOf(entry: { unit: string }, column: Column): Unit | null | 'unknown' {
  if (entry.unit === '') return column.unit;
  return unitNamed(entry.unit, QUANTITIES[column.meaning]) ?? 'unknown';
}

function readPace(entry: Entry, unit: Unit, text: string): Reading {
  if (entry.kind === 'clock' && entry.seconds > 0)
    return { value: speedFor(entry.seconds / 60, unit.metres!), problem: null, unit };
  // 4.30 may mean 4:30 or 4.3 minutes, so that only whole numbers are taken.
  if (entry.kind === 'number' && entry.value > 0 && (!entry.decimals || unit.factor !== 1))
    return { value: speedFor(entry.value * unit.factor, unit.metres!), problem: null, unit };
  return fault(`${quoted(text)} is not a pace; ${expectedPace(unit)}`);
}

function readDuration(entry: Entry, column: Column, unit: Unit | null, text: string): Reading {
  if (entry.kind === 'clock') return { value: entry.seconds / 60, problem: null };
  if (entry.kind !== 'number') return fault(`${quoted(text)} is not a duration`);
  if (unit) return { value: entry.value * unit.factor, problem: null };
  if (entry.value > LONGEST_BARE_MINUTES)
    return fault(
      `${quoted(text)} may be minutes or seconds; expected a unit in the heading, such as ${column.name || 'duration'} (min)`,
    );
  return { value: entry.value, problem: null };
}

/** The possible speeds, km/h, as paces: '1:20 to 60:00 min/km'. */
function paceRange(slowest: number, fastest: number, unit: Unit): string {
  const words = (speed: number) => {
    const seconds = Math.round((3.6 * unit.metres!) / speed);
    return unit.factor === 1
      ? `${Math.floor(seconds / 60)}:${String(seconds % 60).padStart(2, '0')}`
      : String(seconds);
  };
  return `${words(fastest)} to ${words(slowest)} ${unit.label}`;
}

/** The possible values in the unit that they are written in, rounded inwards: '0.91 to 315 mg/dL'. */
function rangeInWords({ range, unit: own }: Quantity, unit: Unit | null | undefined): string {
  const [low, high] = range;
  if (unit?.metres) return paceRange(low, high, unit);
  if (unit && unit.factor !== 1)
    return `${Math.ceil((100 * low) / unit.factor) / 100} to ${Math.floor(high / unit.factor)} ${unit.label}`;
  // A time's lowest value reads better in seconds.
  const inSeconds = low === 5 / 60;
  return `${inSeconds ? '5 s' : low} to ${high}${own === '' ? '' : ` ${own}`}`;
}

function withinRange(reading: Reading, quantity: Quantity, text: string): Reading {
  const [low, high] = quantity.range;
  if (reading.value === null || (reading.value >= low && reading.value <= high)) return reading;
  const mayBeMass = quantity === QUANTITIES.lactate && reading.value > high && reading.unit !== MG_PER_DL;
  const hint = mayBeMass ? '; if this is mg/dL, say so in the heading' : '';
  return fault(
    `${quantity.word} ${quoted(text)} is not possible; expected ${rangeInWords(quantity, reading.unit)}${hint}`,
  );
}

function readFor(column: Column, entry: Entry, text: string): Reading {
  const quantity = QUANTITIES[column.meaning];
  if (entry.kind === 'missing') return { value: null, problem: null };
  const unit = entry.kind === 'unreadable' ? null : unitOf(entry, column);
  if (entry.kind === 'unreadable' || unit === 'unknown') {
    const reason = entry.kind === 'unreadable' ? entry.reason : 'is not a number';
    const marked = markedReading(text, column.meaning === 'lactate');
    const wanted = column.meaning === 'pace' && column.unit ? expectedPace(column.unit) : expected(quantity);
    return fault(`${quoted(text)} ${marked ?? `${reason}; ${wanted}`}`);
  }
  if (TIMES.includes(column.meaning)) return readDuration(entry, column, unit, text);
  // A pace without a unit is told once, of its heading.
  if (column.meaning === 'pace') return unit ? readPace(entry, unit, text) : { value: null, problem: null };
  if (entry.kind === 'clock') return fault(`${quoted(text)} is a time; ${expected(quantity)}`);
  return { value: entry.value * (unit?.factor ?? 1), problem: null, unit };
}

/** How hard an entry of intensity says it was, on any scale that grows with it; null where it says nothing. */
export function hardnessOf(entry: Entry, { meaning }: Column): number | null {
  if (entry.kind !== 'number' && entry.kind !== 'clock') return null;
  const value = entry.kind === 'number' ? entry.value : entry.seconds;
  return meaning === 'pace' ? -value : value;
}

/** Said once for each column: what was measured is not converted silently. */
const CONVERTED = `lactate in ${MG_PER_DL.label} is converted: 1 mmol/L is ${(1 / MG_PER_DL.factor).toFixed(2)} mg/dL, by the molar mass of 90.08 g/mol`;

/** Reads the entries of one table; every fault is marked where it stands. */
export class EntryReader {
  readonly #rows: string[][];
  readonly #marks: Marks;
  readonly #mark: DecimalMark;

  constructor(rows: string[][], mark: DecimalMark, marks: Marks) {
    this.#rows = rows;
    this.#mark = mark;
    this.#marks = marks;
  }

  /** Every entry of a row, in columns that are used or not. */
  row(row: number): readonly string[] {
    return this.#rows[row]!;
  }

  text(row: number, column: Column): string {
    return this.#rows[row]![column.index]!;
  }

  entry(row: number, column: Column): Entry {
    return readEntry(this.text(row, column), this.#mark);
  }

  /** Value in the quantity's own unit (a pace as km/h); null when missing, and when marked as a problem. */
  value(row: number, column: Column | null): number | null {
    if (!column) return null;
    const text = this.text(row, column);
    const reading = readFor(column, this.entry(row, column), text);
    if (reading.unit === MG_PER_DL) this.#noteConversion(column);
    const { value, problem } = withinRange(reading, QUANTITIES[column.meaning], text);
    if (problem !== null) this.#marks.problem(problem, column.index, row);
    return value;
  }

  #noteConversion({ index }: Column): void {
    const isSaid = this.#marks.list.some((mark) => mark.text === CONVERTED && mark.column === index);
    if (!isSaid) this.#marks.note(CONVERTED, index);
  }
}
