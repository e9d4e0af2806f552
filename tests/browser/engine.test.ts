// The page on the real engine: what the other tests here check with a stand-in, once more with real cells.
import * as Plot from '@observablehq/plot';
import { afterEach, expect, test } from 'vitest';
import { page as browser, userEvent } from 'vitest/browser';
import * as editor from '../../src/page/editor/index.ts';
import type { WorkbookPage } from '../../src/page/workbookPage.ts';
import * as controls from '../../src/view/controls.ts';
import * as views from '../../src/view/view.ts';
import { createEngine } from '../../src/workbook/engine.ts';
import type { Engine } from '../../src/workbook/engineTypes.ts';
import { readCell } from '../../src/workbook/readCell.ts';
import '../../src/look/tokens.css';
import '../../src/look/results.css';
import '../../src/look/page.css';
import '../../src/page/workbookPage.ts';
import { soon } from './support/soon.ts';

//   settings → curve → chart
const CELLS = [
  {
    name: 'settings.ts',
    text: "import { slider } from '#hourline';\nexport const degree = slider({ label: 'Degree', min: 1, max: 5, step: 1, value: 2 });",
  },
  {
    name: 'curve.ts',
    text: `import { degree } from './settings.ts';
export const curve: number[] = [1, 2, 3].map((x) => x ** degree.value);
export default 'Top ' + curve[2];`,
  },
  {
    name: 'chart.ts',
    text: "import { chart } from '#hourline';\nimport { curve } from './curve.ts';\nexport default chart({ title: 'Curve', summary: '', draw: ({ Plot, width }) => Plot.lineY(curve).plot({ width, height: 100 }) });",
  },
];

afterEach(() => document.body.replaceChildren());

async function open(): Promise<{ page: WorkbookPage; engine: Engine }> {
  await browser.viewport(1280, 900);
  const page = document.createElement('hour-page') as WorkbookPage;
  const engine = createEngine({
    read: readCell,
    libraries: { '#hourline': () => ({ ...controls, ...views }) },
    onState: (state) => page.stateChanged(state),
    onCells: (cells) => page.cellsChanged(cells),
  });
  page.library = async (name) => (name === 'plot' ? Plot : editor);
  page.engine = engine;
  page.shipped = CELLS;
  engine.load(CELLS);
  document.body.append(page);
  await engine.run();
  return { page, engine };
}

const within = (page: WorkbookPage, cell: string, selector: string) => {
  const found = page.querySelector<HTMLElement>(`[data-cell="${cell}"] ${selector}`);
  if (!found) throw new Error(`${cell} has no ${selector}`);
  return found;
};

test('a control moves, the reader runs and the chart is drawn again', async () => {
  const { page, engine } = await open();
  const first = await soon(() => within(page, 'chart.ts', '.picture svg'));
  const range = (await soon(() => within(page, 'settings.ts', 'input[type="range"]'))) as HTMLInputElement;
  range.value = '4';
  range.dispatchEvent(new Event('input', { bubbles: true }));
  await soon(() => expect(within(page, 'curve.ts', '.shown').textContent!.trim()).toBe('Top 81'));
  await soon(() => expect(within(page, 'chart.ts', '.picture svg')).not.toBe(first));
  expect(engine.states().map((state) => state.runs)).toEqual([1, 2, 2]);
});

test('a cell is broken and mended: the fault underlined, the cell after it waiting, then all as before', async () => {
  const { page, engine } = await open();
  const content = await soon(() => within(page, 'curve.ts', '.cm-content'));
  content.focus();
  await userEvent.keyboard('{Control>}{End}{/Control}{Enter}nowhere;');
  const mark = await soon(() => within(page, 'curve.ts', '.cm-lintRange-error'));
  expect(mark.textContent).toBe('nowhere');
  const note = await soon(() => within(page, 'curve.ts', '.shown .earlier-note'));
  expect(note.textContent).toContain('Earlier result.');
  expect(within(page, 'curve.ts', 'hour-result').textContent!.trim()).toBe('Top 9');
  const link = await soon(() => within(page, 'chart.ts', '.card.waiting .place'));
  expect(link.textContent).toBe('Go to curve');
  await userEvent.keyboard('{Control>}z{/Control}');
  await soon(() => expect(engine.states().map((state) => state.phase)).toEqual(['done', 'done', 'done']));
  await soon(() => expect(page.querySelector('.card, .cm-lintRange-error')).toBeNull());
});

test('a rename reaches the imports in the other editors', async () => {
  const { page, engine } = await open();
  await soon(() => within(page, 'chart.ts', '.cm-content'));
  (await soon(() => within(page, 'curve.ts', 'button.cell-name'))).click();
  await soon(() => within(page, 'curve.ts', 'input.cell-name'));
  await userEvent.keyboard('fit{Enter}');
  await soon(() => expect(within(page, 'chart.ts', '.cm-content').textContent).toContain("from './fit.ts'"));
  await soon(() => expect(engine.states().map((state) => state.phase)).toEqual(['done', 'done', 'done']));
});

test('a deleted cell comes back with its control where the reader had it', async () => {
  const { page, engine } = await open();
  await engine.setControl('settings.ts', 'degree', 3);
  within(page, 'settings.ts', '.menu-button').click();
  const items = await soon(() => {
    const found = [...page.querySelectorAll<HTMLElement>('[role="menuitem"]')];
    expect(found).not.toHaveLength(0);
    return found;
  });
  items.find((item) => item.textContent === 'Delete')!.click();
  await soon(() => expect(engine.state('curve.ts').phase).toBe('waiting'));
  await soon(() => page.querySelector<HTMLElement>('.undo-offer button')!.click());
  await soon(() => expect(engine.state('curve.ts').shown).toBe('Top 27'));
  expect(engine.cells().map((cell) => cell.name)).toEqual(CELLS.map((cell) => cell.name));
});
