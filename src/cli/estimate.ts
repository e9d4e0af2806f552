import { readFileSync } from 'node:fs';
import { InputError } from '../base/inputError.ts';
import { outputFor } from './output.ts';

const STANDARD_INPUT = 0;
const FILE_FAULTS: Record<string, string> = {
  ENOENT: 'no such file',
  EISDIR: 'a folder; expected a CSV file',
  EACCES: 'may not be read',
};

function readBytes(file: string): Uint8Array {
  try {
    return readFileSync(file === '-' ? STANDARD_INPUT : file);
  } catch (error) {
    const fault = FILE_FAULTS[(error as NodeJS.ErrnoException).code ?? ''];
    if (fault === undefined) throw error;
    throw new InputError(`${file}: ${fault}`, { file });
  }
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
    process.stdout.write(outputFor(process.argv.slice(2), readBytes));
  } catch (error) {
    if (!(error instanceof InputError)) throw error;
    process.stderr.write(`${error.message}\n`);
    process.exitCode = 2;
  }
}

main();
