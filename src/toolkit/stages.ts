import type { GridMark, GridValue } from '../base/grid.ts';
import type { Sport } from '../base/units.ts';
import { BOUT_HEADINGS, checkBouts, readBoutTable } from '../data-in/bouts.ts';
import type { Delimited } from '../data-in/delimited.ts';
import { checkRecovery, RECOVERY_HEADINGS, readRecovery, readRecoveryTable } from '../data-in/recovery.ts';
import { checkStepTest, readStageTable } from '../data-in/stages.ts';
import type { Recovery, StageProtocol } from '../physiology/stepTest.ts';
import { type Grid, grid } from '../view/controls.ts';

/** Headings that a table of stages understands, as offered for a new column. */
const SUGGESTIONS: Record<Sport, string[]> = {
  cycling: ['power (W)'],
  running: ['speed (km/h)', 'pace (min/km)'],
  rowing: ['power (W)', 'split (/500 m)'],
};
const COMMON = ['stage', 'duration (min)', 'heart rate (bpm)', 'lactate (mmol/L)', 'RPE (6-20)'];

const HELP = 'Type, paste from a spreadsheet, or drop a CSV or TSV file. A row marked rest is kept apart.';

export interface TableSpec {
  label?: string;
  help?: string;
  /** The table to begin with, as the text of a file. */
  csv: string;
}

export interface BoutGridSpec extends TableSpec {
  sport?: Sport;
}

export interface StageGridSpec extends BoutGridSpec {
  protocol?: StageProtocol;
}

/** How one kind of table is read and checked. */
interface TableKind {
  read(text: string, fileName?: string): Delimited;
  check(value: GridValue): GridMark[];
  suggestions: string[];
}

function tableGrid(
  label: string,
  help: string,
  csv: string,
  { read: readTable, check, suggestions }: TableKind,
): Grid {
  const read = (text: string, fileName?: string) => {
    const { headings, rows } = readTable(text, fileName);
    return { headings, rows };
  };
  return grid({ label, help, value: read(csv), read, check, suggestions });
}

const sportOption = (sport: Sport | undefined) => (sport === undefined ? {} : { sport });

/** An editable table of stages that also takes a pasted, dropped or picked CSV or TSV file. */
export const stageGrid = ({ label = 'Stages', help = HELP, csv, sport, protocol }: StageGridSpec): Grid =>
  tableGrid(label, help, csv, {
    read: readStageTable,
    check: (value) => checkStepTest(value, { ...sportOption(sport), ...(protocol && { protocol }) }),
    suggestions: [...COMMON, ...SUGGESTIONS[sport ?? 'cycling']],
  });

/** A row is begun with its first entry; only with the second is there something to read. */
const isEmpty = ({ rows }: GridValue) =>
  rows.every((row) => row.filter((entry) => entry.trim() !== '').length < 2);

/** The samples in a table of recovery; null while no sample is entered, for most tests have none. */
export const recoveryIn = (value: GridValue): Recovery | null =>
  isEmpty(value) ? null : readRecovery(value);

/** A table without rows gets an empty one to type into. */
function withRow(table: Grid): Grid {
  const { headings, rows } = table.value;
  return rows.length > 0 ? table : { ...table, value: { headings, rows: [headings.map(() => '')] } };
}

/** The same for samples after the end of a test. */
export const recoveryGrid = ({
  label = 'Recovery',
  help = 'Minutes since the end of the test and lactate; mode says passive or active.',
  csv,
}: TableSpec): Grid =>
  withRow(
    tableGrid(label, help, csv, {
      read: readRecoveryTable,
      check: (value) => (isEmpty(value) ? [] : checkRecovery(value)),
      suggestions: RECOVERY_HEADINGS,
    }),
  );

/** The same for bouts at constant intensity, a row for each sample. */
export const boutGrid = ({
  label = 'Bouts',
  help = 'A row for each sample: intensity, minute of the bout, lactate, and whether the bout was completed.',
  csv,
  sport,
}: BoutGridSpec): Grid =>
  tableGrid(label, help, csv, {
    read: readBoutTable,
    check: (value) => checkBouts(value, sportOption(sport)),
    suggestions: [...BOUT_HEADINGS, ...SUGGESTIONS[sport ?? 'cycling']],
  });
