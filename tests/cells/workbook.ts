import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { shippedByName } from '../../src/host/shipped.ts';
import { nodeEngine } from '../../src/tools/share/nodeEngine.ts';
import type { CellText } from '../../src/workbook/document.ts';
import type { CellState, Engine } from '../../src/workbook/engineTypes.ts';

const cellsFolder = path.resolve(import.meta.dirname, '../../cells');

/** Cells of one folder by file name. */
export function cellsIn(folder: string): Map<string, string> {
  // As the host puts them: 100 comes after 90.
  const { compare } = new Intl.Collator('en', { numeric: true });
  const files = readdirSync(path.join(cellsFolder, folder)).toSorted(compare);
  return new Map(files.map((file) => [file, readFileSync(path.join(cellsFolder, folder, file), 'utf8')]));
}

/** Folders of the shipped workbooks. */
export const WORKBOOKS = [
  'athlete',
  'athlete-own',
  'athlete-runner',
  'methods',
  'lesson',
  'lactate-minimum',
  'reverse',
  'bouts',
] as const;
export type Workbook = (typeof WORKBOOKS)[number];

/** Names that the host knows workbooks by, where they are not those of the folders. */
const NAMES: Partial<Record<Workbook, string>> = {
  athlete: 'cyclist',
  'athlete-own': 'own',
  'athlete-runner': 'runner',
};

/** A shipped workbook as the host opens it: its own cells and those that it shares. */
export const shipped = (workbook: Workbook): Promise<CellText[]> =>
  shippedByName(NAMES[workbook] ?? workbook)!.cells();

/** A shipped workbook in the real engine, with no document. */
export async function openWorkbook(workbook: Workbook = 'athlete'): Promise<Engine> {
  const engine = nodeEngine();
  engine.load(await shipped(workbook));
  await engine.run();
  return engine;
}

/** What a reader moved or typed: values by cell and control. */
export type Moves = Record<string, Record<string, unknown>>;

export async function moveControls(engine: Engine, moves: Moves): Promise<void> {
  for (const [cell, values] of Object.entries(moves)) {
    for (const [control, value] of Object.entries(values))
      await engine.setControl(`${cell}.ts`, control, value);
  }
}

/** One line for each cell that did not come to a clean end; asking the reader for entries is one. */
export const faults = (states: readonly CellState[]): string[] =>
  states.flatMap(({ name, phase, problem, warnings }) => [
    ...(phase === 'done' || problem?.notYet ? [] : [`${name} ${phase}: ${problem?.message}`]),
    ...warnings.map((warning) => `${name} warns: ${warning.message}`),
  ]);
