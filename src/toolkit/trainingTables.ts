import { type GridValue, isEmpty } from '../base/grid.ts';
import { InputError } from '../base/inputError.ts';
import { type Axis, type Sport, unitOf } from '../base/units.ts';
import { checkEfforts, EFFORT_HEADINGS, readEfforts, readEffortTable } from '../data-in/efforts.ts';
import { checkPairs, type Pairs, readPairs, readPairTable } from '../data-in/pairs.ts';
import {
  checkTraining,
  readTraining,
  readTrainingTable,
  TRAINING_HEADINGS,
  type TrainingList,
} from '../data-in/trainingList.ts';
import type { BestEfforts } from '../physiology/training/bestEfforts.ts';
import { type NoticeView, notice, onlyLive, type StackView } from '../view/view.ts';
import { type BoutGridSpec, sportOption, type TableSpec, tableGrid } from './stages.ts';
import { type StartedGrid, whoseData } from './whoseData.ts';

/** With distances, which stages and reps have none of. */
const EFFORT_INTENSITIES: Record<Sport, string[]> = {
  cycling: ['power (W)'],
  running: ['distance (m)', 'speed (km/h)', 'pace (min/km)'],
  rowing: ['power (W)', 'distance (m)', 'split (/500 m)'],
};

/** An editable table of best efforts that also takes a pasted, dropped or picked CSV or TSV file. */
export const effortGrid = ({
  label = 'Best efforts',
  help = 'A row for each: its time, and mean power, speed, pace or distance. Kind: time trial, or to exhaustion.',
  csv,
  sport,
}: BoutGridSpec): StartedGrid =>
  tableGrid(label, help, csv, {
    read: readEffortTable,
    check: (value) => (isEmpty(value) ? [] : checkEfforts(value, sportOption(sport))),
    suggestions: [...EFFORT_HEADINGS, ...EFFORT_INTENSITIES[sport ?? 'cycling']],
    rows: { of: 'efforts', ...sportOption(sport) },
    about: {
      says: 'All-out efforts of known time, through which each model draws its line to what lasts an hour.',
      source: 'each model’s paper stands with its result',
    },
  });

/** The same for a session or a week; a recording with an elapsed time is cut into pieces of half a minute. */
export const trainingGrid = ({
  label = 'Training',
  help = 'A row for each piece: its time, and power, speed, pace or heart rate. Or open a recording: FIT, TCX, GPX, or a table with a column elapsed (s).',
  csv,
  sport,
}: BoutGridSpec): StartedGrid =>
  tableGrid(label, help, csv, {
    read: readTrainingTable,
    check: (value) => (isEmpty(value) ? [] : checkTraining(value, sportOption(sport))),
    suggestions: [...TRAINING_HEADINGS, ...EFFORT_INTENSITIES[sport ?? 'cycling']],
    recording: 'all',
    rows: { of: 'training', ...sportOption(sport) },
    about: {
      says: 'Time spent at each intensity or heart rate, which the two thresholds sort into three zones.',
      source: 'common practice',
    },
  });

/** The same for two measurements of the same things. */
export const pairGrid = ({ label = 'Pairs', help = 'A row for each pair.', csv }: TableSpec): StartedGrid =>
  tableGrid(label, help, csv, {
    read: readPairTable,
    check: (value) => (isEmpty(value) ? [] : checkPairs(value)),
    suggestions: ['first', 'second'],
    rows: { of: 'pairs' },
    about: {
      says: 'The same thing measured twice: what the two differ by tells how well it repeats.',
      source: 'Hopkins 2000, Sports Med 30:1–15 (from memory)',
    },
  });

type Started = Pick<StartedGrid, 'value' | 'start'>;

/** Whether a table still holds its invented start beside a test that is the reader's own: then it says nothing of them. */
export const isLeftOver = (table: Started, stages: Started): boolean =>
  whoseData(table) === 'invented' && whoseData(stages) !== 'invented';

/**
 * Why a table has nothing to say: it is empty, or still the demonstration's beside the reader's own test. Null when it has.
 *
 * `what` begins a sentence: 'The best efforts'
 */
export function whyLeftOut(what: string, table: Started, stages: Started): NoticeView | StackView | null {
  if (isEmpty(table.value))
    return onlyLive(notice('note', `${what}: nothing entered yet`, 'Enter it above, or leave it.'));
  if (!isLeftOver(table, stages)) return null;
  return notice(
    'note',
    `${what}: left out`,
    'What stands there is still invented, and the test at the top is your own. Type or paste yours over it.',
  );
}

/** A table's value, or null while it is empty or left over from the demonstration. */
export const usableIn = (table: Started, stages: Started): GridValue | null =>
  isEmpty(table.value) || isLeftOver(table, stages) ? null : table.value;

interface Beside {
  sport: Sport;
  axis: Axis;
}

/** The step test and what is laid beside it must measure intensity alike. */
function expectAxis(found: Axis | null, axis: Axis, what: string): void {
  if (found === null || found === axis) return;
  throw new InputError(
    `${what} is in ${unitOf(found)} and the step test in ${unitOf(axis)}; expected the same in both`,
  );
}

/**
 * The best efforts in a table; null while it is empty or still the demonstration's beside another test.
 *
 * Throws    InputError for what cannot be read or compared with the test
 */
export function effortsIn(table: Started, stages: Started, { sport, axis }: Beside): BestEfforts | null {
  const value = usableIn(table, stages);
  if (value === null) return null;
  const efforts = readEfforts(value, { sport, axis });
  expectAxis(efforts.axis, axis, 'The table of best efforts');
  return efforts;
}

/** The same for a session or a week. */
export function trainingIn(table: Started, stages: Started, { sport, axis }: Beside): TrainingList | null {
  const value = usableIn(table, stages);
  if (value === null) return null;
  const list = readTraining(value, { sport });
  expectAxis(list.axis, axis, 'The list of training');
  return list;
}

/** The pairs in a table; null while it is empty. */
export const pairsIn = ({ value }: Pick<Started, 'value'>): Pairs | null =>
  isEmpty(value) ? null : readPairs(value);
