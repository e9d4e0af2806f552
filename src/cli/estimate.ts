import { createReadStream, readFileSync } from 'node:fs';
import { InputError } from '../base/inputError.ts';
import { type Command, readArguments } from './arguments.ts';
import { nameOf, outputFor } from './output.ts';

const STANDARD_INPUT = 0;
const FILE_FAULTS: Record<string, string> = {
  ENOENT: 'no such file',
  EISDIR: 'a folder; expected a CSV file',
  EACCES: 'may not be read',
};

/** What a system's refusal of a file says to a reader; anything else as it is. */
function fileFault(error: unknown, file: string): unknown {
  const fault = FILE_FAULTS[(error as NodeJS.ErrnoException).code ?? ''];
  return fault === undefined ? error : new InputError(`${file}: ${fault}`, { file });
}

function readBytes(file: string): Uint8Array {
  try {
    return readFileSync(file === '-' ? STANDARD_INPUT : file);
  } catch (error) {
    throw fileFault(error, file);
  }
}

/** Whoever reads our output may stop early (`| head`); that is no fault. */
function allowClosedPipe() {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit();
  });
}

async function batch({ file, args }: Extract<Command, { do: 'batch' }>): Promise<void> {
  const { runBatch } = await import('./batch/run.ts');
  const { withoutWorkbook } = await import('./batch/workbook.ts');
  const input = file === '-' ? process.stdin : createReadStream(file);
  const name = nameOf(file);
  // The output is for programs, a line for each test.
  const table = withoutWorkbook(input, name, (note) => process.stderr.write(`${name}: ${note}\n`));
  try {
    await runBatch(table, process.stdout, { args, file: name });
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'EPIPE') return;
    throw fileFault(error, file);
  }
}

async function main(): Promise<void> {
  allowClosedPipe();
  try {
    const command = readArguments(process.argv.slice(2));
    if (command.do === 'batch') await batch(command);
    else process.stdout.write(outputFor(command, readBytes));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 2;
  }
}

await main();
