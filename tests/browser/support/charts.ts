import * as Plot from '@observablehq/plot';
import * as arquero from 'arquero';
import * as d3Array from 'd3-array';
import * as hourline from '#hourline';
import { type ChartView, isView } from '../../../src/view/view.ts';
import type { CellText } from '../../../src/workbook/document.ts';
import { createEngine } from '../../../src/workbook/engine.ts';
import type { Engine } from '../../../src/workbook/engineTypes.ts';
import { readCell } from '../../../src/workbook/readCell.ts';

const libraries = {
  '#hourline': () => hourline,
  '@observablehq/plot': () => Plot,
  arquero: () => arquero,
  'd3-array': () => d3Array,
};

function chartsIn(shown: unknown): ChartView[] {
  if (Array.isArray(shown)) return shown.flatMap(chartsIn);
  if (!isView(shown)) return [];
  if (shown.view === 'stack') return chartsIn(shown.items);
  // A job that begins by itself is made to its end: its last pictures are those that stay.
  if (shown.view === 'job' && shown.begin === 'at-rest') {
    return [...chartsIn(shown.before), ...chartsIn([...shown.steps()].at(-1)?.shown())];
  }
  return shown.view === 'chart' ? [shown] : [];
}

/** A workbook that has run. */
export async function runWorkbook(cells: readonly CellText[]): Promise<Engine> {
  const engine = createEngine({ read: readCell, libraries, onState: () => {} });
  engine.load(cells);
  await engine.run();
  return engine;
}

/** Every chart that the cells of a workbook show. */
export async function chartsOf(cells: readonly CellText[]): Promise<ChartView[]> {
  return (await runWorkbook(cells)).states().flatMap((state) => chartsIn(state.shown));
}
