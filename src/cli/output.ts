import { decodeText } from '../data-in/decode.ts';
import { stepTestFromText } from '../data-in/stages.ts';
import { readArguments, USAGE } from './arguments.ts';
import { reportOn } from './report.ts';
import { reportText } from './table.ts';

/**
 * What the command prints for these arguments. The file's bytes come from `read`, so that nothing here touches
 * the world around it.
 *
 * Throws    InputError for arguments or a file that cannot be used; then nothing is to be printed
 */
export function outputFor(argv: string[], read: (file: string) => Uint8Array): string {
  const args = readArguments(argv);
  if (args === null) return USAGE;
  const name = args.file === '-' ? 'standard input' : args.file;
  const text = decodeText(read(args.file), name);
  const test = stepTestFromText(text, { file: name, sport: args.sport });
  const report = reportOn(test, name, args);
  return args.json ? `${JSON.stringify(report, null, 2)}\n` : reportText(report, test, args);
}
