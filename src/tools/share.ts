// `npm run --silent share -- FILE -o page.html`: the share page of a table or a workbook without a browser.
import { readFileSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { createServer } from 'vite';
import { InputError } from '../base/inputError.ts';
import type { Sport } from '../base/units.ts';
import { provideDocument } from './share/document.ts';
import type { MadeShare, ShareOptions } from './share/page.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

const USAGE = `A page to share, from a table or a workbook, without a browser.

npm run --silent share -- FILE -o page.html [options]

FILE            a table of stages (CSV or other text, .xlsx), or a workbook or share page that was saved
-o PAGE         where the page goes; - for standard output
--sport SPORT   cycling, running, rowing; without it told from the columns
--mass KG       body mass; without it the one of the table, if any
--without WORDS leaves out who the athlete is: these words, with commas between, dates and notes
--trusted       run the cells of a workbook that are not as shipped, with all that you may do
--help          this text

Exit codes: 0 done, 2 the input or an option cannot be used.
`;

const SPORTS: readonly Sport[] = ['cycling', 'running', 'rowing'];

function readOptions(argv: string[]) {
  const { values, positionals } = parsed(argv);
  if (values.help) return null;
  const [file] = positionals;
  if (file === undefined || positionals.length > 1 || values.output === undefined)
    throw new InputError('expected one FILE and -o page.html (--help explains)');
  const sport = SPORTS.find((word) => word === values.sport);
  if (values.sport !== undefined && !sport)
    throw new InputError(`--sport ${values.sport}: expected one of ${SPORTS.join(', ')}`);
  const bodyMass = values.mass === undefined ? undefined : Number(values.mass);
  if (bodyMass !== undefined && !(bodyMass > 0 && bodyMass < 500))
    throw new InputError(`--mass ${values.mass}: expected kilograms`);
  const { without = null, trusted } = values;
  return { file, output: values.output, options: { sport, bodyMass, without, trusted } };
}

function parsed(argv: string[]) {
  try {
    return parseArgs({
      args: argv,
      allowPositionals: true,
      options: {
        output: { type: 'string', short: 'o' },
        sport: { type: 'string' },
        mass: { type: 'string' },
        without: { type: 'string' },
        trusted: { type: 'boolean', default: false },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
  } catch {
    throw new InputError(`${argv.join(' ')}: no such options (--help explains)`);
  }
}

function bytesOf(file: string): Uint8Array {
  try {
    return new Uint8Array(readFileSync(file));
  } catch (error) {
    throw new InputError(`${file}: cannot be read (${(error as NodeJS.ErrnoException).code})`, { file });
  }
}

function save(file: string, html: string): void {
  try {
    writeFileSync(file, html);
  } catch (error) {
    throw new InputError(`${file}: cannot be written (${(error as NodeJS.ErrnoException).code})`, { file });
  }
}

/** The page is put together from the same modules as in the browser; Vite knows their style sheets and cells. */
async function make(file: string, options: ShareOptions): Promise<MadeShare> {
  const { version } = JSON.parse(readFileSync(`${root}package.json`, 'utf8')) as { version: string };
  const server = await createServer({
    root,
    configFile: false,
    logLevel: 'error',
    appType: 'custom',
    server: { middlewareMode: true, hmr: false, watch: null },
    optimizeDeps: { noDiscovery: true, include: [] },
    define: { HOURLINE_VERSION: JSON.stringify(version), HOURLINE_PARTS: '{}' },
  });
  try {
    const { shareOf } = (await server.ssrLoadModule(
      '/src/tools/share/page.ts',
    )) as typeof import('./share/page.ts');
    return await shareOf(bytesOf(file), file, options);
  } finally {
    await server.close();
  }
}

/** An error's class is loaded twice, by Vite and by this program, so that its name tells. */
const isInputError = (error: unknown): error is Error =>
  error instanceof Error && error.name === 'InputError';

try {
  const asked = readOptions(process.argv.slice(2));
  if (!asked) process.stdout.write(USAGE);
  else {
    bytesOf(asked.file);
    provideDocument();
    const { html, notes } = await make(asked.file, asked.options);
    if (asked.output === '-') process.stdout.write(html);
    else save(asked.output, html);
    for (const note of notes) process.stderr.write(`${note}\n`);
  }
} catch (error) {
  if (!isInputError(error)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 2;
}
