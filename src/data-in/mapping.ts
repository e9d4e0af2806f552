import type { GridValue } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import type { ColumnKind } from './columnKinds.ts';
import { NOT_USED, readHeading, unitBehind, withoutNotUsed } from './headings.ts';
import type { Meaning } from './quantities.ts';

/** What a column is taken for: the word of a kind, and a unit, '' for none. */
interface ColumnUse {
  word: string;
  unit: string;
}

/** One column as the reader understands it, for somebody to correct. */
export interface ColumnTaken {
  heading: string;
  /** Null for a column that is not used. */
  use: ColumnUse | null;
  /** Up to three entries, to recognise the column by. */
  examples: string[];
}

const EXAMPLES = 3;

const kindOf = (heading: string, meaning: Meaning | undefined, kinds: readonly ColumnKind[]) =>
  kinds.find(({ names }) => names?.test(heading.trim())) ??
  kinds.find(({ meanings }) => meaning !== undefined && meanings.includes(meaning));

function useOf(heading: string, kinds: readonly ColumnKind[]): ColumnUse | null {
  const read = readHeading(heading);
  const kind = kindOf(heading, read?.meaning, kinds);
  if (!kind) return null;
  const label = read?.unit?.label;
  // The scale of a rating is no unit; it stands in the heading.
  const written = Object.keys(kind.headings).find((unit) => unit !== '' && heading.includes(`(${unit})`));
  const unit = label && Object.hasOwn(kind.headings, label) ? label : written;
  return { word: kind.word, unit: unit ?? '' };
}

/** What each column of a table is taken for. */
export const columnsTaken = ({ headings, rows }: GridValue, kinds: readonly ColumnKind[]): ColumnTaken[] =>
  headings.map((heading, index) => {
    const entries = rows.map((row) => row[index]!.trim()).filter((entry) => entry !== '');
    return { heading, use: useOf(heading, kinds), examples: entries.slice(0, EXAMPLES) };
  });

/** The unit for a kind that nobody has said yet: the one behind the heading, the only one there is, or none. */
function unitFor(kind: ColumnKind, heading: string): string {
  const units = Object.keys(kind.headings);
  const behind = kind.meanings.map((meaning) => unitBehind(heading, meaning)?.label);
  return behind.find((label) => label !== undefined && units.includes(label)) ?? units[0]!;
}

function headingFor(use: { word: string; unit?: string }, heading: string, kinds: readonly ColumnKind[]) {
  const kind = kinds.find(({ word }) => word === use.word);
  if (!kind)
    throw new InputError(`"${use.word}" is nothing a column here can be said to hold`, { field: heading });
  const unit = use.unit ?? unitFor(kind, heading);
  if (Object.hasOwn(kind.headings, unit)) return kind.headings[unit]!;
  const units = Object.keys(kind.headings).filter((known) => known !== '');
  throw new InputError(`"${unit}" is no unit of ${kind.word}; expected ${units.join(', ') || 'none'}`, {
    field: heading,
  });
}

/** What somebody says of a column. */
export interface Correction {
  column: number;
  /** Null for a column that is not to be used. */
  use: { word: string; unit?: string } | null;
  /** The headings in the file, where the table has others by now. */
  sources?: readonly string[] | undefined;
}

/**
 * A table with one column taken for what somebody says, for the same readers as any: the heading is what says it. What is
 * said without a unit gets the one that its heading names, or that all such columns have. Another column that was taken for
 * the same is not used any longer, unless there may be several.
 *
 * Throws    InputError for a word or unit that does not exist
 */
export function withUse(
  table: GridValue,
  kinds: readonly ColumnKind[],
  { column, use, sources = table.headings }: Correction,
): GridValue {
  const sourceOf = (index: number) => withoutNotUsed(sources[index] ?? table.headings[index]!);
  const several = kinds.find(({ word }) => word === use?.word)?.several;
  const headings = table.headings.map((heading, index) => {
    if (index === column)
      return use ? headingFor(use, sourceOf(index), kinds) : `${NOT_USED}${sourceOf(index)}`;
    const isRival = use && !several && useOf(heading, kinds)?.word === use.word;
    return isRival ? `${NOT_USED}${sourceOf(index)}` : heading;
  });
  return { ...table, headings };
}

/** Quantities that their unit gives away, whatever the heading calls them. */
const TELLING: readonly Meaning[] = ['power', 'speed', 'pace', 'lactate', 'heartRate'];
/** A maximum beside the means is not what a stage was done at; so many a minute may be breaths or pedal turns. */
const NOT_TELLING = /max|peak|1\s*\/\s*min|(^|[\s([])\/\s*min|min-1/i;

/**
 * What unknown headings seem to hold, by their units: 'Laktat [mmol/l]'. Only where one column alone can be meant, and
 * none is known.
 */
export function usesByUnit({ headings }: GridValue, kinds: readonly ColumnKind[]): (ColumnUse | null)[] {
  const known = headings.map((heading) => useOf(heading, kinds));
  const seeming = headings.map((heading, index) => {
    if (known[index] || heading.startsWith(NOT_USED) || NOT_TELLING.test(heading)) return null;
    const meaning = TELLING.find((candidate) => unitBehind(heading, candidate));
    const kind = meaning && kinds.find(({ meanings }) => meanings.includes(meaning));
    return kind ? { word: kind.word, unit: unitFor(kind, heading) } : null;
  });
  const claims = [...known, ...seeming].map((use) => use?.word);
  return seeming.map((use) => (use && claims.filter((word) => word === use.word).length === 1 ? use : null));
}
