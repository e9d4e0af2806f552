import type { GridMark, GridValue } from '../base/grid.ts';
import type { Sport } from '../base/units.ts';
import type { Recovery, Stage, StageProtocol, StepTest } from '../physiology/stepTest.ts';
import { type Columns, findColumns } from './columns.ts';
import { type Delimited, readDelimited } from './delimited.ts';
import { EntryReader } from './entries.ts';
import { readHeading } from './headings.ts';
import { Marks, marksOf, type Placed, readMarked } from './marks.ts';
import { decimalMark } from './numbers.ts';
import { kindsOf, type RowKind, readAfter, readRest, readStage } from './rows.ts';
import { turned } from './turned.ts';
import { joinUnitsRow } from './unitsRow.ts';

/** What is known of a step test besides its table. */
export interface StepTestOptions {
  /** Guessed from the columns when absent, and noted. */
  sport?: Sport;
  /** Planned stage length, min; without it the most common duration. */
  stageMinutes?: number | null;
  /** kg; without it the table's column of body mass, if any. */
  bodyMass?: number | null;
  /** How the stages were done; 'step' without it. */
  protocol?: StageProtocol;
  /** Named in messages. */
  file?: string;
}

/** More stages than any test has (our rule): beyond it a table is something else. */
export const MOST_STAGES = 200;

/** A column called time that only ever increases is a clock, not the length of each stage. */
function withoutClock(entries: EntryReader, columns: Columns, rows: number[], marks: Marks): Columns {
  const time = columns.duration;
  if (time?.name !== 'time' || rows.length < 3) return columns;
  const values = rows.map((row) => {
    const entry = entries.entry(row, time);
    if (entry.kind === 'clock') return entry.seconds;
    return entry.kind === 'number' ? entry.value : Number.NaN;
  });
  if (!values.every((value, i) => i === 0 || value > values[i - 1]!)) return columns;
  marks.note(
    `"${time.text}" increases from row to row, so it is taken as a clock and stage lengths are not read`,
    time.index,
  );
  return { ...columns, duration: null };
}

/** The most common duration of the stages; the longer of two equally common ones. */
export function commonMinutes(stages: readonly Stage[]): number | null {
  const counts = new Map<number, number>();
  for (const { minutes } of stages) if (minutes !== null) counts.set(minutes, (counts.get(minutes) ?? 0) + 1);
  const [best] = [...counts].sort(([a, n], [b, m]) => m - n || b - a);
  return best?.[0] ?? null;
}

function readMass(entries: EntryReader, columns: Columns, rows: number[], marks: Marks): number | null {
  const { mass } = columns;
  if (!mass) return null;
  const values = new Set(rows.map((row) => entries.value(row, mass)).filter((value) => value !== null));
  if (values.size > 1) marks.problem('more than one body mass; expected the same in every row', mass.index);
  return [...values][0] ?? null;
}

function noteSetAside(kinds: RowKind[], marks: Marks) {
  kinds.forEach((kind, row) => {
    if (kind === 'label') marks.note('holds no measurement and is passed over', -1, row);
    if (kind === 'summary') marks.note('sums up other rows and is passed over', -1, row);
  });
}

/**
 * Samples in recovery rows. After the stages they belong to the recovery from the test, if their label gives the
 * minute; before the stages of a lactate minimum test the last one tells how raised lactate was.
 */
function readRecovery(
  rows: number[],
  firstStage: number,
  readers: { entries: EntryReader; columns: Columns; marks: Marks },
  protocol: StageProtocol,
) {
  const { entries, columns, marks } = readers;
  const samples = rows.map((row) => readAfter(entries, row, columns));
  const before = samples.filter((sample) => sample.row < firstStage).at(-1);
  const after: Recovery['samples'] = [];
  for (const { row, minute, lactate } of samples) {
    if (row < firstStage && protocol === 'lactate-minimum') continue;
    if (row > firstStage && minute !== null && lactate !== null) {
      after.push({ row, minute, lactate });
      marks.note(`a recovery sample, ${minute} min after the end`, -1, row);
    } else marks.note('a recovery sample; not used without its minute, such as recovery 3 min', -1, row);
  }
  return {
    ...(after.length > 0 && { recovery: { samples: after, mode: null } }),
    ...(protocol === 'lactate-minimum' && { lactateBefore: before?.lactate ?? null }),
  };
}

function expectSomething(stages: Stage[], columns: Columns, marks: Marks) {
  if (stages.length === 0) marks.problem('no stages; expected a row for each stage below the headings');
  else if (!marks.broken && stages.every((stage) => stage.lactate === null))
    marks.problem('no lactate in any stage; expected at least one number', columns.lactate.index);
}

/** The lactate of the one row at rest. */
function restLactateOf(rows: number[], entries: EntryReader, columns: Columns, marks: Marks): number | null {
  const values = rows.map((row) => readRest(entries, row, columns, marks));
  const measured = values.filter((value) => value !== null);
  if (measured.length > 1)
    marks.problem(
      'a second sample at rest; expected one row marked rest',
      columns.lactate.index,
      rows.at(-1),
    );
  return measured[0] ?? null;
}

/** Which column holds what, and what each row is; null without the columns that a test needs. */
function sortedOut(grid: GridValue, sport: Sport | undefined, marks: Marks) {
  const found = findColumns(grid, sport, marks);
  if (!found) return null;
  const entries = new EntryReader(grid.rows, decimalMark(grid.rows.flat()), marks);
  return { found, entries, kinds: kindsOf(entries, grid.rows.length, found) };
}

/** What each row of a table of stages is; empty where its columns are not known. */
export const kindsOfRows = (grid: GridValue, { sport }: StepTestOptions = {}): RowKind[] =>
  sortedOut(grid, sport, new Marks())?.kinds ?? [];

/** The one reading of a table that both the check and the import use; null when a problem was marked. */
function readTable(grid: GridValue, options: StepTestOptions, marks: Marks): StepTest | null {
  const sorted = sortedOut(grid, options.sport, marks);
  if (!sorted) return null;
  const { found, entries, kinds } = sorted;
  const rowsOf = (kind: RowKind) => kinds.flatMap((k, row) => (k === kind ? [row] : []));
  const [atRest, inStages] = [rowsOf('rest'), rowsOf('stage')];
  if (inStages.length > MOST_STAGES) {
    marks.problem(
      `${inStages.length} stages; expected at most ${MOST_STAGES}, a row for each stage of one test`,
    );
    return null;
  }
  const columns = withoutClock(entries, found, inStages, marks);
  const restLactate = restLactateOf(atRest, entries, columns, marks);
  const stages = inStages.map((row) => readStage(entries, row, columns, marks));
  const mass = readMass(entries, columns, [...atRest, ...inStages], marks);
  noteSetAside(kinds, marks);
  const { protocol = 'step' } = options;
  const recovery = readRecovery(
    rowsOf('recovery'),
    kinds.indexOf('stage'),
    { entries, columns, marks },
    protocol,
  );
  expectSomething(stages, columns, marks);
  if (marks.broken) return null;
  return {
    sport: columns.sport,
    axis: columns.axis,
    stages,
    restLactate,
    stageMinutes: options.stageMinutes ?? commonMinutes(stages),
    bodyMass: options.bodyMass ?? mass,
    ...(options.protocol && { protocol }),
    ...recovery,
    ...(columns.oxygenUptake && {
      oxygenUptakeUnit: columns.oxygenUptake.unit?.label === 'ml/min/kg' ? 'ml/min/kg' : 'ml/min',
    }),
    notes: [],
  };
}

/**
 * A step test from a table of stages, its columns recognised by their headings. Speeds and paces become km/h,
 * durations minutes; a missing measurement stays missing. With `protocol` the stages are those of a lactate minimum
 * test (the lactate before them in a row marked recovery) or of a reverse test.
 *
 * Throws    InputError for the first problem; `checkStepTest` tells all of them
 */
export function readStepTest(grid: Placed, options: StepTestOptions = {}): StepTest {
  const { value, notes } = readMarked(grid, options.file, (marks) => readTable(grid, options, marks));
  return { ...value, notes };
}

/** Everything that is wrong or had to be decided in a table of stages, for marking it while it is typed. */
export const checkStepTest = (grid: GridValue, options: StepTestOptions = {}): GridMark[] =>
  marksOf((marks) => readTable(grid, options, marks));

/** What is said of a table that was turned. */
export const TURNED = 'The table lay on its side, a line for each quantity, and was turned.';
const USUAL_HEADINGS = 'headings such as power (W), heart rate (bpm), lactate (mmol/L)';
/** Far more than any test has; a recording is cut into stages first. */
const MOST_ROWS = 5000;
const countStageHeadings = (entries: string[]) =>
  entries.filter((entry) => readHeading(entry) !== null).length;

/** The table of stages in a text: a file, or what was pasted from a spreadsheet. */
export function readStageTable(text: string, file?: string): Delimited {
  const table = turned(
    readDelimited(text, {
      file,
      countHeadings: countStageHeadings,
      expected: USUAL_HEADINGS,
      mostRows: MOST_ROWS,
    }),
  );
  return joinUnitsRow(table);
}
