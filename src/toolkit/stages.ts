import type { GridMark, GridValue } from '../base/grid.ts';
import { isEmpty } from '../base/grid.ts';
import { NotYetError } from '../base/inputError.ts';
import { type Sport, unitOf } from '../base/units.ts';
import { BOUT_HEADINGS, checkBouts, readBoutTable } from '../data-in/bouts.ts';
import type { Delimited } from '../data-in/delimited.ts';
import { readHeading } from '../data-in/headings.ts';
import { checkRecovery, RECOVERY_HEADINGS, readRecovery, readRecoveryTable } from '../data-in/recovery.ts';
import {
  checkStepTest,
  readStageTable,
  readStepTest as readTable,
  type StepTestOptions,
} from '../data-in/stages.ts';
import { HARDEST_STAGE, isImplausible } from '../physiology/plausible.ts';
import type { Recovery, StageProtocol, StepTest } from '../physiology/stepTest.ts';
import { type Explanation, grid, type RecordingUse, type RowsRead } from '../view/controls.ts';
import { type StartedGrid, whoseData } from './whoseData.ts';

/** Headings of intensity, as offered for a new column. */
export const INTENSITY_HEADINGS: Record<Sport, string[]> = {
  cycling: ['power (W)'],
  running: ['speed (km/h)', 'pace (min/km)'],
  rowing: ['power (W)', 'split (/500 m)'],
};
const COMMON = ['stage', 'duration (min)', 'heart rate (bpm)', 'lactate (mmol/L)', 'RPE (6-20)'];

const HELP =
  'Type, paste from a spreadsheet, or open a table or a recording (FIT, TCX, GPX). A row marked rest is kept apart.';

/** What a table says of itself and begins with. */
export interface TableSpec {
  label?: string;
  help?: string;
  /** The table to begin with, as the text of a file. */
  csv: string;
}

/** The same with the sport, which decides the headings that are suggested. */
export interface BoutGridSpec extends TableSpec {
  sport?: Sport;
}

interface StageGridSpec extends BoutGridSpec {
  protocol?: StageProtocol;
  /** A table that may be taken over once it holds the reader's own test, and what it is called. */
  offer?: { from: string; grid: Pick<StartedGrid, 'value' | 'start'> };
}

/** How one kind of table is read and checked. */
interface TableKind {
  read(text: string, fileName?: string): Delimited;
  check(value: GridValue): GridMark[];
  suggestions: string[];
  recording?: RecordingUse;
  rows: RowsRead;
  about: Explanation;
  offer?: { from: string; value: GridValue };
}

/** A table control of one kind; it knows what it starts out with. */
export function tableGrid(
  label: string,
  help: string,
  csv: string,
  { read: readTable, ...kind }: TableKind,
): StartedGrid {
  const read = (text: string, fileName?: string) => {
    const { headings, rows } = readTable(text, fileName);
    return { headings, rows };
  };
  const start = read(csv);
  return { ...grid({ label, help, value: start, read, ...kind }), start };
}

/** The sport as readers want it. */
export const sportOption = (sport: Sport | undefined) => (sport === undefined ? {} : { sport });

/** An editable table of stages that also takes a pasted, dropped or picked CSV or TSV file. */
export const stageGrid = ({
  label = 'Stages',
  help = HELP,
  csv,
  sport,
  protocol,
  offer,
}: StageGridSpec): StartedGrid =>
  tableGrid(label, help, csv, {
    read: readStageTable,
    check: (value) =>
      isUnmeasured(value) ? [] : marksOf(value, { ...sportOption(sport), ...(protocol && { protocol }) }),
    suggestions: [...COMMON, ...INTENSITY_HEADINGS[sport ?? 'cycling']],
    recording: 'stages',
    ...(offer &&
      whoseData(offer.grid) === 'yours' && { offer: { from: offer.from, value: offer.grid.value } }),
    rows: { of: 'stages', ...sportOption(sport), ...(protocol && { protocol }) },
    about: {
      says: 'One row a stage: its intensity and the lactate at its end are what every threshold is read from.',
      source: 'common practice',
    },
  });

/** What the reader of the table marks, and stages that are most likely slips of the pen. */
function marksOf(value: GridValue, options: StepTestOptions): GridMark[] {
  const marks = checkStepTest(value, options);
  if (marks.some(({ tone }) => tone === 'problem')) return marks;
  const { axis, stages } = readTable(value, options);
  const slips = stages.filter(({ intensity }) => isImplausible(intensity, axis));
  const text = `more than ${HARDEST_STAGE[axis]} ${unitOf(axis)}: hardly anybody keeps that up, see that it is no slip`;
  return [...marks, ...slips.map(({ row }): GridMark => ({ row, column: -1, tone: 'note', text }))];
}

/** Whether no row holds a lactate yet, where it is plain which column is to hold it. */
function isUnmeasured({ headings, rows }: GridValue): boolean {
  const column = headings.findIndex((heading) => readHeading(heading)?.meaning === 'lactate');
  return column >= 0 && rows.every((row) => (row[column] ?? '').trim() === '');
}

/**
 * The step test in a table of stages; see the reader of the same name. A table that waits to be filled is no fault.
 *
 * Throws    NotYetError while no lactate is entered; InputError for what cannot be read
 */
export function readStepTest(value: GridValue, options: StepTestOptions = {}): StepTest {
  if (isUnmeasured(value))
    throw new NotYetError('Waits for the stages: at least 4, better 7 or more, each with its lactate.');
  return readTable(value, options);
}

/** The samples in a table of recovery; null while no sample is entered, for most tests have none. */
export const recoveryIn = (value: GridValue): Recovery | null =>
  isEmpty(value) ? null : readRecovery(value);

/** A table without rows gets an empty one to type into. */
function withRow(table: StartedGrid): StartedGrid {
  const { headings, rows } = table.value;
  return rows.length > 0 ? table : startingWith(table, { headings, rows: [headings.map(() => '')] });
}

const startingWith = (table: StartedGrid, start: GridValue): StartedGrid => ({
  ...table,
  value: start,
  start,
});

/** The same for samples after the end of a test. */
export const recoveryGrid = ({
  label = 'Recovery',
  help = 'Minutes since the end of the test and lactate; mode says passive or active.',
  csv,
}: TableSpec): StartedGrid =>
  withRow(
    tableGrid(label, help, csv, {
      read: readRecoveryTable,
      check: (value) => (isEmpty(value) ? [] : checkRecovery(value)),
      suggestions: RECOVERY_HEADINGS,
      rows: { of: 'recovery' },
      about: {
        says: 'Lactate after the end of the test, from which the individual anaerobic threshold is constructed.',
        source: 'Stegmann, Kindermann & Schnabel 1981, Int J Sports Med 2:160–165 (from memory)',
      },
    }),
  );

/** The same for bouts at constant intensity, a row for each sample. */
export const boutGrid = ({
  label = 'Bouts',
  help = 'A row for each sample: intensity, minute of the bout, lactate, and whether the bout was completed.',
  csv,
  sport,
}: BoutGridSpec): StartedGrid =>
  tableGrid(label, help, csv, {
    read: readBoutTable,
    check: (value) => checkBouts(value, sportOption(sport)),
    suggestions: [...BOUT_HEADINGS, ...INTENSITY_HEADINGS[sport ?? 'cycling']],
    rows: { of: 'bouts', ...sportOption(sport) },
    about: {
      says: 'Long efforts at constant intensity, each on a day of its own: they alone measure a steady state.',
      source: 'Beneke 2003, Eur J Appl Physiol 89:95–99 (from memory)',
    },
  });
