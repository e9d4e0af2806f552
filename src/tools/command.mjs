// Runs the command line from plain programs that are made of its sources whenever those have changed: so it, and each of its
// threads, starts in a fraction of the time that translating file by file takes.
import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { fileURLToPath, pathToFileURL } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
/** One for each copy of Hourline: several may share their packages. */
const copy = createHash('sha256').update(root).digest('hex').slice(0, 12);
const folder = `${root}node_modules/.hourline-command/${copy}/`;
/** Sources by program; the threads of a batch look for theirs beside the program that starts them. */
const PROGRAMS = { 'estimate.mjs': 'src/cli/estimate.ts', 'thread.mjs': 'src/cli/batch/worker.ts' };

/** Tells whether a file has changed, and takes no longer than asking for it. */
function stampOf(file) {
  const { mtimeMs, size } = statSync(file);
  return `${mtimeMs} ${size}`;
}

/** Whether the programs are those of the sources as they are now. */
function areFresh() {
  try {
    const stamps = JSON.parse(readFileSync(`${folder}sources.json`, 'utf8'));
    return Object.entries(stamps).every(([file, stamp]) => stampOf(file) === stamp);
  } catch {
    return false; // none made yet, or a source is gone
  }
}

/** Replaced in one step: another command may be starting from it. */
function write(name, text) {
  const unfinished = `${folder}${name}.${process.pid}`;
  writeFileSync(unfinished, text);
  renameSync(unfinished, `${folder}${name}`);
}

/** The program of an entry, and the files that it is made of. */
async function programOf(entry) {
  const { build } = await import('vite');
  const { output } = await build({
    root,
    configFile: false,
    logLevel: 'error',
    ssr: { noExternal: true, target: 'node' },
    build: {
      ssr: `${root}${entry}`,
      write: false,
      minify: false,
      target: 'node20',
      rolldownOptions: { output: { codeSplitting: false } },
    },
  });
  const [{ code, moduleIds }] = output;
  return { code, files: moduleIds.filter((id) => existsSync(id)) };
}

async function make() {
  mkdirSync(folder, { recursive: true });
  const stamps = { [import.meta.filename]: stampOf(import.meta.filename) };
  for (const [name, entry] of Object.entries(PROGRAMS)) {
    const { code, files } = await programOf(entry);
    for (const file of files) stamps[file] = stampOf(file);
    write(name, code);
  }
  write('sources.json', JSON.stringify(stamps));
}

/** Where nothing may be written, the sources are translated as they are loaded. */
async function runSources() {
  const { register } = await import('tsx/esm/api');
  register();
  await import('../cli/estimate.ts');
}

async function mayMake() {
  try {
    await make();
    return true;
  } catch (error) {
    if (error.syscall === undefined) throw error; // not refused by the system: no permission, no space, no folder
    return false;
  }
}

if (areFresh() || (await mayMake())) await import(new URL('estimate.mjs', pathToFileURL(folder)).href);
else await runSources();
