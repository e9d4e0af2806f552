import { boutsFromText, recoveryFromText, stepTestFromText } from '../data-in/fromText.ts';
import type { TestData } from '../physiology/stepTest.ts';
import { type Arguments, type Command, USAGE } from './arguments.ts';
import { listOutput } from './list.ts';
import { analyse } from './report.ts';
import { reportText } from './table.ts';
import { tableText } from './tableText.ts';

type Read = (file: string) => Uint8Array;
type PrintedCommand = Exclude<Command, { do: 'batch' }>;

/**
 * What a command prints that is not answered piece by piece. The bytes of files come from `read`, so that nothing here touches
 * the world around it.
 *
 * Throws    InputError for a file that cannot be used; then nothing is to be printed
 */
export function outputFor(command: PrintedCommand, read: Read): string {
  if (command.do === 'help') return USAGE;
  if (command.do === 'list') return listOutput(command.json);
  const { files, args } = command;
  const tests = files.map((file) => ({ name: nameOf(file), test: testIn(file, args, read) }));
  const analyses = tests.map(({ name, test }) => analyse(test, name, args));
  const reports = analyses.map(({ report }) => report);
  if (args.json) return `${JSON.stringify(reports.length === 1 ? reports[0] : reports, null, 2)}\n`;
  return analyses.map((analysis, i) => reportText(analysis, tests[i]!.test, args)).join('\n');
}

/** How messages call a file of the command line. */
export const nameOf = (file: string) => (file === '-' ? 'standard input' : file);

function testIn(file: string, { protocol, sport, mass, recovery }: Arguments, read: Read): TestData {
  const name = nameOf(file);
  const { text, notes: onTheWay } = tableText(read(file), name);
  const withNotes = <T extends TestData>(test: T): T => ({ ...test, notes: [...onTheWay, ...test.notes] });
  if (protocol === 'bouts') return withNotes(boutsFromText(text, { file: name, sport, bodyMass: mass }));
  const test = withNotes(
    stepTestFromText(text, {
      file: name,
      sport,
      bodyMass: mass,
      ...(protocol !== 'step' && { protocol }),
    }),
  );
  if (recovery === null) return test;
  const from = nameOf(recovery);
  const table = tableText(read(recovery), from);
  const { notes, ...samples } = recoveryFromText(table.text, from);
  return { ...test, recovery: samples, notes: [...test.notes, ...table.notes, ...notes] };
}
