import type { GridValue } from '../base/grid.ts';
import type { BoutTest, Recovery, StepTest } from '../physiology/stepTest.ts';
import { type BoutOptions, readBouts, readBoutTable } from './bouts.ts';
import { COLUMN_KINDS, type ColumnKind } from './columnKinds.ts';
import type { Delimited } from './delimited.ts';
import { NoHeadingsError } from './layout.ts';
import { usesByUnit, withUse } from './mapping.ts';
import { readRecovery, readRecoveryTable } from './recovery.ts';
import { readStageTable, readStepTest, type StepTestOptions, TURNED } from './stages.ts';
import { readUnnamedTable } from './unnamed.ts';

/** The table with its unknown headings taken for what their units tell, and which were. */
export function namedByUnit(
  table: GridValue,
  kinds: readonly ColumnKind[],
): { headings: string[]; guessed: boolean[] } {
  const guesses = usesByUnit(table, kinds);
  const { headings } = guesses.reduce<GridValue>(
    (made, use, column) => (use ? withUse(made, kinds, { column, use }) : made),
    table,
  );
  return { headings, guessed: guesses.map((use) => use !== null) };
}

/** What was guessed by units, in sentences; for where nobody can be asked. */
export const guessesInWords = (from: readonly string[], to: readonly string[], guessed: readonly boolean[]) =>
  to.flatMap((heading, i) =>
    guessed[i] ? `"${from[i]}" is taken for ${heading}, guessed by its unit.` : [],
  );

/** A table read where nobody can be asked what its columns hold: what was guessed by units is noted. */
function readGuessing(
  read: (text: string, file?: string) => Delimited,
  text: string,
  { kinds, file }: { kinds: readonly ColumnKind[]; file: string | undefined },
): Delimited {
  const { table, unnamed } = readOrUnnamed(read, text, file);
  const { headings, guessed } = namedByUnit(table, kinds);
  if (unnamed && !guessed.includes(true)) throw unnamed;
  const guesses = guessesInWords(table.headings, headings, guessed);
  return { ...table, headings, notes: [...(table.isTurned ? [TURNED] : []), ...table.notes, ...guesses] };
}

function readOrUnnamed(read: (text: string, file?: string) => Delimited, text: string, file?: string) {
  try {
    return { table: read(text, file), unnamed: null };
  } catch (error) {
    if (!(error instanceof NoHeadingsError)) throw error;
    return { table: readUnnamedTable(text, error, file), unnamed: error };
  }
}

/** A step test from a text; see `readStepTest`. */
export const stepTestFromText = (text: string, options: StepTestOptions = {}): StepTest =>
  readStepTest(
    readGuessing(readStageTable, text, { kinds: COLUMN_KINDS.stages, file: options.file }),
    options,
  );

/** Bouts from a text; see `readBouts`. */
export const boutsFromText = (text: string, options: BoutOptions = {}): BoutTest =>
  readBouts(readGuessing(readBoutTable, text, { kinds: COLUMN_KINDS.bouts, file: options.file }), options);

/** Recovery samples from a text; see `readRecovery`. */
export const recoveryFromText = (text: string, file?: string): Recovery & { notes: string[] } =>
  readRecovery(readGuessing(readRecoveryTable, text, { kinds: COLUMN_KINDS.recovery, file }), file);
