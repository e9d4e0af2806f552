import { afterEach, expect, vi } from 'vitest';
import type { GridValue } from '../../src/base/grid.ts';
import { isControl } from '../../src/view/controls.ts';
import { isView, numbersBehind, type Showable, type View } from '../../src/view/view.ts';
import type { Engine } from '../../src/workbook/engineTypes.ts';
import { faults, type Moves, moveControls, openWorkbook, type Workbook } from './workbook.ts';

/** Every text that a reader would see. Charts give their title, summary and table. */
export function textsOf(shown: Showable | unknown): string[] {
  if (shown === null || shown === undefined) return [];
  if (typeof shown === 'string' || typeof shown === 'number') return [String(shown)];
  if (Array.isArray(shown)) return shown.flatMap(textsOf);
  // An empty number field has the value null and shows nothing.
  if (isControl(shown)) return [shown.label, shown.help ?? '', JSON.stringify(shown.value ?? '')];
  if (!isView(shown)) throw new Error(`not a thing to show: ${JSON.stringify(shown)}`);
  return viewTexts(shown);
}

function viewTexts(view: View): string[] {
  switch (view.view) {
    case 'prose':
      return [view.markdown];
    case 'notice':
      return [view.title, view.body];
    case 'figures':
      return view.figures.flatMap((f) => [f.label, f.value, f.range ?? '', f.note ?? '']);
    case 'stack':
      return [...(view.folded === undefined ? [] : [view.folded]), ...view.items.flatMap(textsOf)];
    case 'job':
      return [view.label, ...textsOf(view.before)];
    case 'chart':
      return [view.title, view.summary, ...[numbersBehind(view) ?? []].flat().flatMap(viewTexts)];
    case 'table':
      return [
        view.caption,
        view.note ?? '',
        ...view.columns.map((c) => `${c.heading} ${c.unit ?? ''}`),
        ...view.rows.flatMap((row) => Object.values(row).map((v) => v ?? '')),
      ];
  }
}

const UNFIT = /NaN|undefined|Infinity|\[object|\bnull\b/;

interface Shown {
  engine: Engine;
  /** What each cell shows, as text. */
  text: Map<string, string>;
}

/** A shipped workbook after these moves; every cell must have run cleanly and show nothing unfit. */
export async function shown(moves: Moves = {}, workbook?: Workbook): Promise<Shown> {
  const engine = await openWorkbook(workbook);
  await moveControls(engine, moves);
  expect(faults(engine.states())).toEqual([]);
  const text = new Map(engine.states().map((s) => [s.name.replace('.ts', ''), textsOf(s.shown).join('\n')]));
  for (const [name, all] of text) expect(all.match(UNFIT)?.[0] ?? '', `${name}: ${all}`).toBe('');
  return { engine, text };
}

export const grid = (headings: string[], ...rows: (string | number)[][]): GridValue => ({
  headings,
  rows: rows.map((row) => row.map(String)),
});

/** The lactates of a step test by power. */
export const POWER = ['power (W)', 'lactate (mmol/L)'];

/** Puts a table in the place of the shipped stages. */
export const stagesOf = (value: GridValue): Moves => ({ '20-stages': { stages: value } });

/** Called once in a file of tests: no test of it may warn or complain on the console. */
export function expectSilence(): void {
  const warnings = vi.spyOn(console, 'warn');
  const errors = vi.spyOn(console, 'error');
  afterEach(() => {
    expect(warnings.mock.calls).toEqual([]);
    expect(errors.mock.calls).toEqual([]);
  });
}
