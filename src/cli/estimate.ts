import { readFileSync } from 'node:fs';
import { InputError } from '../base/inputError.ts';
import { decodeText } from '../data-in/decode.ts';
import { stepTestFromText } from '../data-in/stages.ts';
import { type Arguments, readArguments, USAGE } from './arguments.ts';
import { reportOn } from './report.ts';
import { reportText } from './table.ts';

const STANDARD_INPUT = 0;
const FILE_FAULTS: Record<string, string> = {
  ENOENT: 'no such file',
  EISDIR: 'a folder; expected a CSV file',
  EACCES: 'may not be read',
};

function readInput(file: string): { text: string; name: string } {
  const name = file === '-' ? 'standard input' : file;
  try {
    const bytes = readFileSync(file === '-' ? STANDARD_INPUT : file);
    return { text: decodeText(bytes, name), name };
  } catch (error) {
    const fault = FILE_FAULTS[(error as NodeJS.ErrnoException).code ?? ''];
    if (fault === undefined) throw error;
    throw new InputError(`${name}: ${fault}`, { file: name });
  }
}

function outputFor(args: Arguments): string {
  const { text, name } = readInput(args.file);
  const test = stepTestFromText(text, { file: name, sport: args.sport });
  const report = reportOn(test, name, args);
  return args.json ? `${JSON.stringify(report, null, 2)}\n` : reportText(report, test, args);
}

/** Whoever reads our output may stop early (`| head`); that is no fault. */
function allowClosedPipe() {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit();
  });
}

function main() {
  allowClosedPipe();
  try {
    const args = readArguments(process.argv.slice(2));
    process.stdout.write(args === null ? USAGE : outputFor(args));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 2;
  }
}

main();
