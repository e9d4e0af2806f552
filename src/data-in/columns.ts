import type { GridValue } from '../base/grid.ts';
import type { Axis, Sport } from '../base/units.ts';
import { type Heading, isOpenIntensity, readHeading, withoutNotUsed } from './headings.ts';
import type { Marks } from './marks.ts';
import { type Meaning, QUANTITIES } from './quantities.ts';
import { expectOneTest } from './testNames.ts';

/** A column of a table and what its heading says it holds. */
export interface Column extends Heading {
  /** 0-based place in the grid. */
  index: number;
  /** The heading as written. */
  text: string;
}

/** Which column holds what; several may number the stages. */
export interface Columns {
  stage: Column[];
  intensity: Column;
  lactate: Column;
  sport: Sport;
  axis: Axis;
  duration: Column | null;
  heartRate: Column | null;
  rpe: Column | null;
  oxygenUptake: Column | null;
  mass: Column | null;
}

const SPORT_NEEDS: Record<Sport, { meanings: Meaning[]; expected: string }> = {
  cycling: { meanings: ['power'], expected: 'power in W' },
  running: { meanings: ['speed', 'pace'], expected: 'speed (km/h, m/s) or pace (min/km, min/mile)' },
  rowing: { meanings: ['power', 'speed', 'pace'], expected: 'power in W or a split /500 m' },
};

/** Words of the user's as messages quote them. */
export const quote = (text: string) => `"${text}"`;

/** Rows in which something stands. */
export const filledRows = ({ rows }: GridValue): number[] =>
  rows.flatMap((entries, row) => (entries.some((text) => text.trim() !== '') ? [row] : []));

/** The one column of a meaning; a second one is a problem, except where its unit shows that it is something else. */
export function only(columns: Column[], meaning: Meaning, marks: Marks): Column | null {
  const all = columns.filter((column) => column.meaning === meaning);
  const known = all.filter((column) => column.unknownUnit === null);
  const { word, units } = QUANTITIES[meaning];
  const labels = new Set(Object.values(units).map(({ label }) => label));
  if (known.length > 1)
    marks.problem(
      `two columns for ${word}: ${known.map((column) => quote(column.text)).join(' and ')}; remove or rename one`,
      known[1]!.index,
    );
  if (known.length === 0 && all[0])
    marks.problem(
      `${quote(all[0].unknownUnit!)} is not a unit of ${word} known here; expected ${[...labels].join(' or ') || 'none'}`,
      all[0].index,
    );
  return known[0] ?? null;
}

/** The sport that a column speaks for: a split for rowing, watts otherwise for cycling. */
function guessSport(power: Column | null, speed: Column | null, pace: Column | null): [Sport, Column | null] {
  if (pace?.unit?.metres === 500) return ['rowing', pace];
  return power ? ['cycling', power] : ['running', speed ?? pace];
}

function expectIntensity(marks: Marks, open: Column | undefined, sport: Sport | undefined) {
  const expected = sport
    ? SPORT_NEEDS[sport].expected
    : 'power in W, speed in km/h or m/s, a pace or a split /500 m';
  if (open)
    marks.problem(
      `${quote(open.text)} does not say its unit; expected ${expected}, such as intensity (W)`,
      open.index,
    );
  else
    marks.problem(
      `no column of intensity${sport ? ` for ${sport}` : ''}; expected a heading for ${expected}${sport ? ', or another sport chosen for the athlete' : ''}`,
    );
}

/**
 * The first column of oxygen uptake that says its unit: 50 may be per kg, 3.2 litres. The thresholds do not hang on it,
 * so a column that cannot be used is only noted.
 */
function findOxygenUptake(columns: Column[], marks: Marks): Column | null {
  const all = columns.filter((column) => column.meaning === 'oxygenUptake');
  const usable = all.find((column) => column.unit !== null) ?? null;
  for (const other of all.filter((column) => column !== usable))
    marks.note(
      usable
        ? `${quote(other.text)} is not used beside ${quote(usable.text)}`
        : `${quote(other.text)} is not used: it does not say its unit, such as ml/min, L/min or ml/min/kg`,
      other.index,
    );
  return usable;
}

/** A speed needs its unit: 12 may be km/h or mph, 4.5 km/h or m/s. */
function expectUnit(column: Column, marks: Marks) {
  if (column.unit !== null) return;
  const units = column.meaning === 'speed' ? 'km/h, m/s or mph' : 'min/km, min/mile or /500 m';
  marks.problem(
    `${quote(column.text)} does not say its unit; expected ${units} in the heading`,
    column.index,
  );
}

/** The column that the axis is read from, and the sport that goes with it; null when there is none. */
export function chooseIntensity(columns: Column[], given: Sport | undefined, marks: Marks) {
  const open = columns.find(isOpenIntensity);
  // With the sport known to be cycling, a bare 'intensity' can only be watts.
  const usable = given === 'cycling' ? columns : columns.filter((column) => column !== open);
  const power = only(usable, 'power', marks);
  const speed = only(usable, 'speed', marks);
  const pace = only(usable, 'pace', marks);
  const [guess, reason] = guessSport(power, speed, pace);
  const sport = given ?? guess;
  const present = [power, speed, pace].filter((column) => column !== null);
  const intensity = present.find((column) => SPORT_NEEDS[sport].meanings.includes(column.meaning));
  if (!intensity) {
    if (!marks.broken) expectIntensity(marks, open, given);
    return null;
  }
  expectUnit(intensity, marks);
  if (!given && reason)
    marks.note(`sport not stated; taken as ${sport} because of ${quote(reason.text)}`, reason.index);
  for (const other of present.filter((column) => column !== intensity))
    marks.note(`${quote(other.text)} is not used beside ${quote(intensity.text)}`, other.index);
  const axis: Axis = intensity.meaning === 'power' ? 'power' : 'speed';
  return { intensity, sport, axis };
}

/** Leaves a note that names the columns with a heading that nothing was read from. */
export function noteUnused(grid: GridValue, columns: Column[], marks: Marks) {
  const used = new Set(columns.map((column) => column.index));
  const unused = grid.headings.filter((heading, index) => !used.has(index) && heading.trim() !== '');
  if (unused.length > 0)
    marks.note(`not used: ${unused.map((heading) => quote(withoutNotUsed(heading))).join(', ')}`);
}

/** The columns whose headings say what they hold; only tables of whole efforts know what to do with a distance. */
export const columnsOf = (
  { headings }: GridValue,
  { distances = false }: { distances?: boolean } = {},
): Column[] =>
  headings.flatMap((text, index) => {
    const heading = readHeading(text);
    if (!heading || (heading.meaning === 'distance' && !distances)) return [];
    return [{ ...heading, index, text }];
  });

/** The column of minutes, in tables where a time is a moment and not a length. */
export function minuteColumn(columns: Column[], marks: Marks): Column | null {
  const moments = columns.map(
    (column): Column => (column.meaning === 'duration' ? { ...column, meaning: 'minute' } : column),
  );
  const column = only(moments, 'minute', marks);
  if (!column && !marks.broken) marks.problem('no column of minutes; expected a heading such as minute');
  return column && { ...column, unit: column.unit ?? QUANTITIES.minute.usual };
}

/** The column of times in tables of whole efforts and sessions, which may take hours. */
export function timeColumn(columns: Column[], marks: Marks): Column | null {
  const times = columns.map(
    (column): Column => (column.meaning === 'duration' ? { ...column, meaning: 'longTime' } : column),
  );
  const column = only(times, 'longTime', marks);
  if (!column && !marks.broken) marks.problem('no column of times; expected a heading such as time (min)');
  return column;
}

/** A column of words, known by its heading alone. */
export function namedColumn({ headings }: GridValue, names: RegExp): Column | null {
  const index = headings.findIndex((heading) => names.test(heading.trim()));
  if (index < 0) return null;
  const text = headings[index]!;
  return { index, text, meaning: 'remark', name: text, unit: null, stated: false, unknownUnit: null };
}

/**
 * Says what each column of a stage table holds; what cannot be settled is marked as a problem. Null without a
 * column of intensity and one of lactate.
 */
export function findColumns(grid: GridValue, given: Sport | undefined, marks: Marks): Columns | null {
  // Among stages a time is a length: a moment of the recovery is nothing we know there.
  const columns = columnsOf(grid).filter((column) => column.meaning !== 'minute');
  const chosen = chooseIntensity(columns, given, marks);
  expectOneTest(grid, chosen?.intensity ?? null, marks);
  const lactate = only(columns, 'lactate', marks);
  if (!lactate && !marks.broken)
    marks.problem('no column of lactate; expected a heading such as lactate (mmol/L)');
  noteUnused(grid, columns, marks);
  const others = {
    stage: columns.filter((column) => column.meaning === 'stage'),
    duration: only(columns, 'duration', marks),
    heartRate: only(columns, 'heartRate', marks),
    rpe: only(columns, 'rpe', marks),
    oxygenUptake: findOxygenUptake(columns, marks),
    mass: only(columns, 'mass', marks),
  };
  return chosen && lactate ? { ...chosen, lactate, ...others } : null;
}
