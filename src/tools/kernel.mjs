// Compiles the numerical kernel to WebAssembly whenever a source of it has changed. The same sources run as they are
// wherever one fit is wanted; compiled, they serve the draws. DEVELOPERS.md, "The kernel", says how to write them.
import { createHash } from 'node:crypto';
import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const folder = 'src/physiology/kernel';
const target = path.join(root, folder, 'compiled.ts');

/** A type that is one of some words; to the compiler they are text. */
const WORDS = /^(export )?type (\w+) =[\s|]*'[^;]*;/gm;
/** Of these the kernel needs the types of words alone: they hold nothing that runs. */
const ONLY_WORDS = ['src/physiology/stepTest.ts'];

/** AssemblyScript reads TypeScript but for three spellings: type-only imports, private names, and types of words. */
export const spelled = (text) =>
  text
    .replaceAll('import type ', 'import ')
    .replace(/^import \{[^}]*\}/gm, (names) => names.replace(/\btype /g, ''))
    .replace(/#(?=[a-z])/g, '_')
    .replace(WORDS, '$1type $2 = string;');

/** Of the sources, and of what compiles them. */
const hashOf = (files) => {
  const hash = createHash('sha256');
  const all = ['src/tools/kernel.mjs', 'node_modules/assemblyscript/package.json', ...files];
  for (const file of all) hash.update(readFileSync(path.join(root, file)));
  return hash.digest('hex').slice(0, 16);
};

/** Whether what was compiled last is what its sources say now: their names and their hash stand in its first line. */
function isFresh() {
  if (!existsSync(target)) return false;
  const [, hash, files] = /^\/\/ (\w+) (.*)/.exec(readFileSync(target, 'utf8')) ?? [];
  const sources = files?.split(' ') ?? [];
  return (
    sources.length > 0 &&
    sources.every((file) => existsSync(path.join(root, file))) &&
    hashOf(sources) === hash
  );
}

/** Names of functions are for a profile: what was compiled with them is compiled again for everything else. */
async function compile({ names } = { names: false }) {
  const { default: asc } = await import('assemblyscript/asc');
  const sources = new Set();
  let said = '';
  let binary = null;
  const { error } = await asc.main(
    [
      ...[`${folder}/assembly/entry.ts`, '--baseDir', root, '--lib', `${folder}/assembly/lib`],
      ...['--use', 'Float64Array=Floats', '--use', 'Int32Array=Integers', '--use', 'abort='],
      ...['--runtime', 'stub', '--noAssert', '-O3', '--disableWarning', '235', '--outFile', 'kernel.wasm'],
      ...(names ? ['--debug'] : []),
    ],
    {
      stderr: {
        write: (text) => {
          said += text;
        },
      },
      readFile(name, base) {
        const file = path
          .relative(root, path.join(base, name.replace(/\.ts\.ts$/, '.ts')))
          .replaceAll(path.sep, '/');
        const whole = path.join(root, file);
        if (!file.startsWith('src') || !existsSync(whole)) return null;
        sources.add(file);
        const text = readFileSync(whole, 'utf8');
        return spelled(ONLY_WORDS.includes(file) ? text.match(WORDS).join('\n') : text);
      },
      writeFile(_name, bytes) {
        binary = bytes;
      },
      listFiles: () => ['arrays.ts'],
    },
  );
  if (error || !binary) {
    const faults = said.split('\n\n').filter((part) => part.includes('ERROR'));
    throw new Error(`the kernel does not compile:\n${faults.join('\n\n') || said}`);
  }
  const files = [...sources].sort();
  const text = `// ${names ? 'named' : hashOf(files)} ${files.join(' ')}\n/** The compiled kernel in base64, made by src/tools/kernel.mjs. */\nexport const KERNEL =\n  '${Buffer.from(names ? binary : await inlined(binary)).toString('base64')}';\n`;
  const unfinished = `${target}.${process.pid}`;
  writeFileSync(unfinished, text);
  renameSync(unfinished, target);
}

/** Sizes up to which a function is copied to where it is called: many times what the compiler does, and a tenth faster. */
const INLINED = { always: 60, often: 150, once: 2000 };

/** The binary once more, with small functions copied to where they are called. */
async function inlined(binary) {
  const { default: binaryen } = await import('assemblyscript/binaryen');
  const module = binaryen.readBinary(binary);
  // What the compiler takes for granted, and every engine since 2020 has.
  const { MutableGlobals, SignExt, NontrappingFPToInt, BulkMemory, BulkMemoryOpt } = binaryen.Features;
  module.setFeatures(MutableGlobals | SignExt | NontrappingFPToInt | BulkMemory | BulkMemoryOpt);
  binaryen.setAlwaysInlineMaxSize(INLINED.always);
  binaryen.setFlexibleInlineMaxSize(INLINED.often);
  binaryen.setOneCallerInlineMaxSize(INLINED.once);
  binaryen.setAllowInliningFunctionsWithLoops(true);
  binaryen.setOptimizeLevel(4);
  binaryen.setShrinkLevel(0);
  for (let round = 0; round < 2; round++) module.optimize();
  return module.emitBinary();
}

/** Compile the kernel unless it is compiled already. */
export async function ensureKernel() {
  if (isFresh()) return;
  console.error('hourline: compiling the kernel');
  await compile();
}

if (process.argv[1] === fileURLToPath(import.meta.url))
  await compile({ names: process.argv.includes('--names') });
