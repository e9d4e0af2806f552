import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';

const root = path.resolve(import.meta.dirname, '../..');

/** What each layer may import: other layers by folder, packages by name. DEVELOPERS.md explains the order. */
const LAYERS: Record<string, { layers: string[]; packages: string[] }> = {
  base: { layers: [], packages: [] },
  numerics: { layers: ['base'], packages: [] },
  physiology: { layers: ['base', 'numerics'], packages: [] },
  'data-in': { layers: ['base', 'physiology'], packages: ['d3-dsv', 'fflate', 'saxen'] },
  look: { layers: [], packages: [] }, // style sheets only
  view: { layers: ['base'], packages: ['@observablehq/plot'] },
  charts: {
    layers: ['base', 'numerics', 'physiology', 'view'],
    packages: ['@observablehq/plot'],
  },
  toolkit: {
    layers: ['base', 'numerics', 'physiology', 'data-in', 'view', 'charts'],
    packages: [],
  },
  workbook: {
    layers: ['base', 'view'],
    packages: ['acorn', '@sveltejs/acorn-typescript'],
  },
  page: {
    layers: ['base', 'view', 'workbook', 'toolkit'],
    packages: [
      'lit',
      'marked',
      '@observablehq/plot',
      'codemirror',
      '@codemirror/autocomplete',
      '@codemirror/commands',
      '@codemirror/lang-javascript',
      '@codemirror/language',
      '@codemirror/lint',
      '@codemirror/state',
      '@codemirror/view',
      '@lezer/common',
      '@lezer/highlight',
      '@lezer/javascript',
    ],
  },
  frame: { layers: ['base', 'view', 'workbook', 'toolkit', 'page', 'look'], packages: [] },
  host: {
    layers: ['base', 'workbook', 'toolkit', 'look'], // of the toolkit only the cautions
    packages: ['lit', 'idb', 'dompurify', '@lezer/highlight', '@lezer/javascript'],
  },
  cli: { layers: ['base', 'numerics', 'physiology', 'data-in'], packages: [] },
  cells: {
    layers: ['toolkit'],
    packages: ['@observablehq/plot', 'arquero', 'd3-array'],
  },
};

/** Globals that would make a pure layer depend on the world around it. */
const PURE = ['base', 'numerics', 'physiology', 'view', 'workbook', 'charts', 'data-in'];
const WORLD = /\b(Math\.random|Date\.now|new Date\(\)|performance\.now|fetch\()/;

interface Source {
  file: string;
  layer: string;
  text: string;
}

function sources(): Source[] {
  const files = (folder: string) =>
    readdirSync(path.join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((f) => f.endsWith('.ts'))
      .map((f) => path.join(folder, f));
  return [...files('src'), ...files('cells')].map((file) => ({
    file,
    layer: file.startsWith('cells') ? 'cells' : file.split(path.sep)[1]!,
    text: readFileSync(path.join(root, file), 'utf8'),
  }));
}

const specifiers = (text: string) =>
  [...text.matchAll(/(?:^|\n)\s*(?:import|export)\b[^'";]*?from\s*'([^']+)'|import\s*\(?\s*'([^']+)'/g)].map(
    (m) => m[1] ?? m[2]!,
  );

function layerOf(source: Source, specifier: string): { layer?: string; package?: string } {
  if (specifier === '#hourline') return { layer: 'toolkit' };
  if (!specifier.startsWith('.')) {
    const parts = specifier.split('/');
    return {
      package: specifier.startsWith('@') ? parts.slice(0, 2).join('/') : parts[0]!,
    };
  }
  const target = path.join(path.dirname(source.file), specifier);
  return {
    layer: target.startsWith('cells') ? 'cells' : target.split(path.sep)[1]!,
  };
}

/** Every breach of the table in the given sources, one line each. */
function breaches(all: Source[]): string[] {
  const found: string[] = [];
  for (const source of all) {
    const rule = LAYERS[source.layer];
    if (!rule) continue; // src/tools: node-only scripts, free to import anything
    for (const specifier of specifiers(source.text)) {
      const to = layerOf(source, specifier);
      const layerFine = to.layer === undefined || to.layer === source.layer || rule.layers.includes(to.layer);
      const nodeOnly = source.layer === 'cli' && specifier.startsWith('node:');
      const packageFine = to.package === undefined || nodeOnly || rule.packages.includes(to.package);
      if (!layerFine || !packageFine) found.push(`${source.file} may not import ${specifier}`);
    }
    const world = PURE.includes(source.layer) ? WORLD.exec(source.text) : null;
    if (world) found.push(`${source.file} uses ${world[0]}`);
  }
  return found;
}

describe('layers', () => {
  test('every folder imports only what the table allows', () => {
    expect(breaches(sources())).toEqual([]);
  });

  test('every folder of src has a row in the table', () => {
    const folders = readdirSync(path.join(root, 'src'), { withFileTypes: true })
      .filter((f) => f.isDirectory() && f.name !== 'tools')
      .map((f) => f.name);
    expect(folders.filter((f) => !LAYERS[f])).toEqual([]);
  });

  test('a planted breach is caught', () => {
    const planted = [
      {
        file: 'src/physiology/x.ts',
        layer: 'physiology',
        text: `import { a } from '../page/a.ts';\n`,
      },
      {
        file: 'src/numerics/y.ts',
        layer: 'numerics',
        text: 'export const r = () => Math.random();',
      },
      {
        file: 'cells/athlete/z.ts',
        layer: 'cells',
        text: `import {\n  b,\n} from '../../src/workbook/b.ts';\n`,
      },
      { file: 'src/view/w.ts', layer: 'view', text: `import 'lit';\n` },
    ];
    expect(breaches(planted)).toHaveLength(4);
  });
});
