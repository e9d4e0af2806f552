import type { GridValue } from '../base/grid.ts';
import { counted, listed } from './accountWords.ts';
import { type BoutOptions, readBouts } from './bouts.ts';
import { type EffortOptions, readEfforts } from './efforts.ts';
import { readPairs } from './pairs.ts';
import { readRecovery } from './recovery.ts';
import { readSession, type SessionOptions } from './session.ts';
import { kindsOfRows, readStepTest, type StepTestOptions } from './stages.ts';
import { readTraining, type TrainingOptions } from './trainingList.ts';

/** What was made of a table: how much of what, and the rows that were left out, each with the reason. */
export interface Account {
  read: string;
  leftOut: { row: number; why: string }[];
}

/** Every row that is not used, with the reason; one without entries is always left out as empty. */
const unusedRows = (grid: GridValue, used: readonly number[], why: (row: number) => string) =>
  grid.rows.flatMap((entries, row) => {
    if (used.includes(row)) return [];
    return [{ row, why: entries.every((entry) => entry.trim() === '') ? 'empty' : why(row) }];
  });

/**
 * What the reader of stages makes of a table. The accounts of other tables below are alike.
 *
 * Throws    InputError for a table that cannot be read
 */
export function accountOfStages(grid: GridValue, options: StepTestOptions = {}): Account {
  const test = readStepTest(grid, options);
  const kinds = kindsOfRows(grid, options);
  const stages = test.stages.filter(({ lactate }) => lactate !== null);
  const samples = test.recovery?.samples ?? [];
  const rests = kinds.flatMap((kind, row) => (kind === 'rest' && test.restLactate !== null ? [row] : []));
  const before = kinds.slice(0, kinds.indexOf('stage')).lastIndexOf('recovery');
  const raised = test.lactateBefore == null ? [] : [before];
  const used = [...stages, ...samples].map(({ row }) => row).concat(rests, raised);
  const whyByKind = {
    label: 'no measurement',
    summary: 'it sums up others',
    recovery: 'a recovery sample without its minute',
  };
  const read = [
    counted(stages.length, 'stage'),
    ...(rests.length > 0 ? ['the sample at rest'] : []),
    ...(raised.length > 0 ? ['the sample before the stages'] : []),
    ...(samples.length > 0 ? [counted(samples.length, 'recovery sample')] : []),
  ];
  const why = (row: number) => whyByKind[kinds[row] as keyof typeof whyByKind] ?? 'no lactate';
  return { read: listed(read), leftOut: unusedRows(grid, used, why) };
}

/** What was read of a table of reps and samples. Throws InputError when it cannot be read. */
export function accountOfReps(grid: GridValue, options: SessionOptions = {}): Account {
  const { reps } = readSession(grid, options);
  const readings = reps.flatMap((rep) => rep.readings);
  const samples = readings.filter(({ lactate }) => lactate !== null);
  const read = `${counted(reps.length, 'rep')} with ${counted(samples.length, 'lactate sample')}`;
  return {
    read,
    leftOut: unusedRows(
      grid,
      readings.map(({ row }) => row),
      () => 'no reading',
    ),
  };
}

/** What was read of a table of best efforts. Throws InputError when it cannot be read. */
export function accountOfEfforts(grid: GridValue, options: EffortOptions = {}): Account {
  const { efforts } = readEfforts(grid, options);
  const used = efforts.map(({ row }) => row);
  return { read: counted(efforts.length, 'effort'), leftOut: unusedRows(grid, used, () => 'no effort') };
}

/** What was read of a list of training or a recording. Throws InputError when it cannot be read. */
export function accountOfTraining(grid: GridValue, options: TrainingOptions = {}): Account {
  const { pieces } = readTraining(grid, options);
  const used = pieces.map(({ row }) => row);
  const read = counted(pieces.length, 'piece of training', 'pieces of training');
  return { read, leftOut: unusedRows(grid, used, () => 'no time') };
}

/** What was read of a table of constant-load bouts. Throws InputError when it cannot be read. */
export function accountOfBouts(grid: GridValue, options: BoutOptions = {}): Account {
  const { bouts } = readBouts(grid, options);
  const samples = bouts.flatMap((bout) => bout.samples);
  const read = `${counted(bouts.length, 'bout')} with ${counted(samples.length, 'sample')}`;
  return {
    read,
    leftOut: unusedRows(
      grid,
      samples.map(({ row }) => row),
      () => 'no lactate',
    ),
  };
}

/** What was read of a table of recovery samples. Throws InputError when it cannot be read. */
export function accountOfRecovery(grid: GridValue): Account {
  const { samples } = readRecovery(grid);
  const used = samples.map(({ row }) => row);
  return {
    read: counted(samples.length, 'recovery sample'),
    leftOut: unusedRows(grid, used, () => 'no lactate'),
  };
}

/** What was read of a table of repeated readings. Throws InputError when it cannot be read. */
export function accountOfPairs(grid: GridValue): Account {
  const { rows } = readPairs(grid);
  return { read: counted(rows.length, 'pair'), leftOut: unusedRows(grid, rows, () => 'one value only') };
}
