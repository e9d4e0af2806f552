// Puts together dist/: the frame (one script inlined in one HTML text), the libraries as scripts, and the host
// page with the content security policy that names the frame's script by its hash. All addresses are relative,
// so any static host can serve dist/ under any path.
import { createHash } from 'node:crypto';
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { gzipSync } from 'node:zlib';
import { build, type Plugin, type Rollup } from 'vite';
import { keyOf, type PackedRead, packRead } from '../frame/packedReads.ts';
import type { LibraryName } from '../workbook/messages.ts';
import { readCell } from '../workbook/readCell.ts';
import { frameHtml, framePolicy, hostPolicy } from './policies.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));
const dist = path.join(root, 'dist');
/** Built here first, so that dist/ is never seen half done. */
const work = path.join(root, 'node_modules/.hourline');

/** What each library's script exports: a package, or an own module. The toolkit is built together with the frame. */
const LIBRARIES: Record<Exclude<LibraryName, 'toolkit'>, string> = {
  plot: '@observablehq/plot',
  arquero: 'arquero',
  'd3-array': 'd3-array',
  editor: '/src/page/editor/index.ts',
  reader: '/src/workbook/readCell.ts',
  files: '/src/toolkit/files.ts',
};

/** gzip KB before the first chart: host, frame and Plot. (Our rule.) */
const BUDGET = 250;

/**
 * What Plot has for maps, trees, fields, point clouds, pictures and prices: a fifth of its size, and of no use to a
 * step test. A cell that asks for one of these is told what there is.
 */
const LEFT_OUT = new RegExp(
  `^(${[
    'geo|sphere|graticule|centroid|hex|tree|cluster|voronoi|delaunay|hull|density|contour|raster|interpolat',
    'vector|spike|waffle|image|bollinger|auto',
  ].join('|')})`,
  'i',
);

/** An entry that passes on what a module exports, or all but some of it. (Vite makes a path of its name.) */
async function entryOf(module: string): Promise<Plugin> {
  const whole = module !== LIBRARIES.plot;
  const names = whole ? [] : Object.keys(await import(module)).filter((name) => !LEFT_OUT.test(name));
  const code = `export ${whole ? '*' : `{ ${names} }`} from '${module}';`;
  return {
    name: 'hourline-entry',
    resolveId: (id) => (id.endsWith('hourline-entry') ? '\0hourline-entry' : null),
    load: (id) => (id === '\0hourline-entry' ? code : null),
  };
}

/** Plot's core holds on to every map projection, a tenth of its size; whoever asks for one is told that it is not there. */
async function withoutMaps(): Promise<Plugin> {
  const maps = 'd3-geo';
  const names = Object.keys(await import(maps)).filter((name) => name !== 'geoTransform');
  const code = `const none = () => { throw new Error('a step test needs no maps: the chart library comes without them'); };
    export const geoTransform = () => ({ stream: none }); // called when Plot loads
    export { ${names.map((name) => `none as ${name}`)} };`;
  return {
    name: 'hourline-without-maps',
    enforce: 'pre',
    resolveId: (id) => (id === maps ? '\0hourline-without-maps' : null),
    load: (id) => (id === '\0hourline-without-maps' ? code : null),
  };
}

const common = { root, configFile: false, logLevel: 'warn' } as const;

/** One module and all it imports as one classic script. */
async function script(
  entry: string,
  name: string,
  plugins: Plugin[],
  define: Record<string, string> = {},
): Promise<string> {
  const built = await build({
    ...common,
    plugins,
    define: { 'process.env.NODE_ENV': '"production"', ...define },
    build: { write: false, target: 'es2023', lib: { entry, name, formats: ['iife'] } },
  });
  const [{ output }] = built as [Rollup.RollupOutput];
  return output[0].code;
}

const hashOf = (text: string) => createHash('sha256').update(text).digest('hex').slice(0, 10);

function put(file: string, text: string): string {
  writeFileSync(path.join(work, file), text);
  return file;
}

async function buildLibraries(): Promise<Omit<Record<LibraryName, string>, 'toolkit'>> {
  const files: [string, string][] = [];
  for (const [name, module] of Object.entries(LIBRARIES)) {
    const plugins = [await entryOf(module), await withoutMaps()];
    const code = await script('hourline-entry', 'library', plugins);
    files.push([name, put(`${name}.${hashOf(code)}.js`, code)]);
  }
  return Object.fromEntries(files) as Awaited<ReturnType<typeof buildLibraries>>;
}

/** Inside a script element, these three would end the script or change how its end is found. */
const inlineable = (code: string) => code.replace(/<(?=\/script|script|!--)/gi, '\\x3c');

/** Folders of the workbooks that Hourline may open on; the others can wait for the parser. */
const EARLY = ['athlete', 'athlete-own', 'athlete-runner'];

/** What the frame would have to parse before the first chart, parsed now. */
function shippedReads(): Record<string, PackedRead> {
  const reads: Record<string, PackedRead> = {};
  for (const name of EARLY) {
    const folder = path.join(root, 'cells', name);
    for (const file of readdirSync(folder)) {
      const text = readFileSync(path.join(folder, file), 'utf8');
      const packed = packRead(text, readCell(text));
      if (packed) reads[keyOf(text)] = packed;
    }
  }
  return reads;
}

/**
 * The frame and the toolkit as CommonJS chunks, what both use in a third. The frame's document holds its own chunk
 * and the shared one; the toolkit's arrives as a library and is given the shared one's exports, so that both have
 * the same classes.
 */
async function frameChunks(): Promise<Record<'shared' | 'frame' | 'toolkit', string>> {
  const built = await build({
    ...common,
    define: {
      'process.env.NODE_ENV': '"production"',
      HOURLINE_SHIPPED_READS: JSON.stringify(shippedReads()),
    },
    build: {
      write: false,
      target: 'es2023',
      lib: { entry: { frame: 'src/frame/main.ts', toolkit: 'src/toolkit/index.ts' }, formats: ['cjs'] },
    },
  });
  const [{ output }] = built as [Rollup.RollupOutput];
  const codes = output.flatMap((part) =>
    part.type === 'chunk' ? [[part.isEntry ? part.name : 'shared', part.code]] : [],
  );
  if (codes.length !== 3)
    throw new Error(`expected the frame, the toolkit and one shared chunk, not ${codes.length}`);
  return Object.fromEntries(codes);
}

async function buildFrame(): Promise<{ file: string; hash: string; toolkit: string }> {
  const { shared, frame, toolkit } = await frameChunks();
  const code = inlineable(
    `(()=>{const HOURLINE_SHARED={};(exports=>{${shared}\n})(HOURLINE_SHARED);` +
      `(require=>{${frame}\n})(()=>HOURLINE_SHARED)})()`,
  );
  // In parentheses a function is compiled with the script; without them it would be read once more when it is called.
  const library = `const library=(function(shared){const exports={},require=()=>shared;${toolkit}\nreturn exports});`;
  const hash = createHash('sha256').update(code).digest('base64');
  const html = frameHtml(framePolicy(hash), code);
  return {
    file: put(`frame.${hashOf(html)}.html`, html),
    hash,
    toolkit: put(`toolkit.${hashOf(library)}.js`, library),
  };
}

/** The policy, and the parts that are wanted at once, go into the page's head. */
const headOf = (policy: string, preload: string[]): Plugin => ({
  name: 'hourline-head',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: policy },
      injectTo: 'head-prepend',
    },
    ...preload.map((href) => ({
      tag: 'link',
      attrs: { rel: 'preload', as: 'fetch', crossorigin: 'anonymous', href },
      injectTo: 'head-prepend' as const,
    })),
  ],
});

async function buildHost(frame: { file: string; hash: string }, libraries: Record<LibraryName, string>) {
  const { version } = JSON.parse(readFileSync(path.join(root, 'package.json'), 'utf8'));
  await build({
    root: path.join(root, 'src/host'),
    configFile: false,
    logLevel: 'warn',
    base: './',
    plugins: [headOf(hostPolicy(frame.hash), [frame.file, libraries.plot, libraries.toolkit])],
    define: {
      HOURLINE_PARTS: JSON.stringify({ frame: frame.file, libraries }),
      HOURLINE_VERSION: JSON.stringify(version),
    },
    build: { outDir: work, emptyOutDir: false, target: 'es2023', modulePreload: { polyfill: false } },
  });
}

const filesIn = (folder: string) =>
  readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.\w+$/.test(file))
    .map((file) => file.replaceAll(path.sep, '/'))
    .sort();

/** The worker that keeps all other files for the time without a network; its version is that of their contents. */
async function buildWorker(): Promise<void> {
  const hashed = (file: string) =>
    createHash('sha256')
      .update(readFileSync(path.join(work, file)))
      .digest('hex');
  const files = filesIn(work);
  const page = hashed('index.html');
  const version = hashOf(files.map((file) => `${file} ${hashed(file)}`).join('\n'));
  const edition = { version, page, files: files.filter((file) => file !== 'index.html') };
  const define = { HOURLINE_EDITION: JSON.stringify(edition) };
  put('worker.js', await script('src/host/offline/worker.ts', 'worker', [], define));
}

/** gzip size of each file in dist/, and of those needed before the first chart. */
function report(first: string[]): void {
  const sizes = filesIn(dist).map((file) => ({
    file,
    kilobytes: gzipSync(readFileSync(path.join(dist, file))).length / 1000,
  }));
  for (const { file, kilobytes } of sizes)
    console.log(`${kilobytes.toFixed(1).padStart(8)} KB gzip  ${file}`);
  const isFirst = (file: string) => first.includes(file) || /^index\.html$|^assets\/index-/.test(file);
  const total = sizes.filter(({ file }) => isFirst(file)).reduce((sum, { kilobytes }) => sum + kilobytes, 0);
  console.log(`${total.toFixed(1).padStart(8)} KB gzip before the first chart; the budget is ${BUDGET}`);
}

/** Builds everything and puts it in the place of dist/. */
export async function buildAll(): Promise<void> {
  rmSync(work, { recursive: true, force: true });
  mkdirSync(work);
  const [libraries, frame] = await Promise.all([buildLibraries(), buildFrame()]);
  await buildHost(frame, { ...libraries, toolkit: frame.toolkit });
  await buildWorker();
  rmSync(dist, { recursive: true, force: true });
  renameSync(work, dist);
  report([frame.file, libraries.plot]);
}

if (import.meta.url === pathToFileURL(process.argv[1]!).href) await buildAll();
