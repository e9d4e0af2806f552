import { readFileSync } from 'node:fs';
import type { BrowserContext, Frame, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import {
  cellOf,
  openStage,
  runCells,
  type Stage,
  savedPage,
  typeInto,
  untilStatus,
  workbookFrame,
} from './helpers.ts';

const CELLS = [
  { name: 'source.ts', text: 'export const x = 1;\nexport default x;\n' },
  { name: 'reader.ts', text: `import { x } from './source.ts';\nexport default 'twice ' + 2 * x;\n` },
];

let stage: Stage;
let context: BrowserContext;
let page: Page;
let frame: Frame;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.close());
beforeEach(async () => {
  context = await stage.context();
  page = await context.newPage();
  await runCells(page, stage.served.url, CELLS);
  frame = await workbookFrame(page);
  await untilStatus(page, 'Up to date');
});
afterEach(() => context.close());

const cell = (name: string) => cellOf(frame, name);

async function choose(name: string, label: string): Promise<void> {
  await cell(name).locator('.menu-button').click();
  await cell(name).getByRole('menuitem', { name: label }).click();
}

test('earlier results are told as such: in the cell, in the title bar, before and on the share page', async () => {
  await typeInto(page, frame, 'source.ts', 'export const x = missing;\n');
  await untilStatus(page, '1 cell failed, 1 waits');
  const note = cell('reader').locator('.earlier-note');
  expect(await note.textContent()).toBe('Earlier result. This cell waits for source.');
  expect(await cell('reader').locator('hour-result').textContent()).toContain('twice 2');
  await page.getByRole('button', { name: 'Share page' }).click();
  await page.getByText('1 cell failed, 1 waits. The page will mark').waitFor();
  const save = () => page.getByRole('button', { name: 'Save share page' }).click();
  const html = readFileSync(await savedPage(page, save), 'utf8');
  expect(html).toMatch(/Earlier result\.<\/strong> This cell failed: missing is not defined/);
  expect(html).toMatch(/Earlier result\.<\/strong> This cell waits for source\./);
});

test('cells that wait for a deleted one are counted', async () => {
  await choose('source', 'Delete');
  await untilStatus(page, '1 cell waits');
  const note = await cell('reader').locator('.earlier-note').textContent();
  expect(note).toBe('Earlier result. This cell waits for source, which does not exist.');
});

test('the title bar leads to the first cell that failed, by hand and by keyboard', async () => {
  await page.setViewportSize({ width: 1000, height: 300 });
  await typeInto(page, frame, 'source.ts', 'export const x = missing;\n');
  const focused = () => frame.evaluate(() => document.activeElement?.getAttribute('aria-label'));
  const trouble = page.getByRole('button', {
    name: '1 cell failed, 1 waits: go to the first that failed',
  });
  await trouble.click();
  await expect.poll(focused).toBe('Cell source');
  await cell('reader').locator('section').focus();
  await trouble.focus();
  await page.keyboard.press('Enter');
  await expect.poll(focused).toBe('Cell source');
  expect(await page.evaluate(() => document.activeElement?.tagName)).toBe('IFRAME');
  await choose('source', 'Delete');
  await page.getByRole('button', { name: '1 cell waits: go to the first that waits' }).click();
  await expect.poll(focused).toBe('Cell reader');
});

test('a new cell takes the cursor, in sight', async () => {
  await choose('source', 'Add code below');
  const editor = cell('cell-1').locator('.cm-content');
  await expect.poll(() => editor.evaluate((e) => e === document.activeElement)).toBe(true);
  await page.keyboard.insertText('// typed at once\n');
  await expect.poll(() => editor.textContent()).toContain('// typed at once// Import');
  expect(await cell('cell-1').locator('.cell-name').isVisible()).toBe(true);
});

test('at 390 px the title bar has two rows and leaves the window to the workbook', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  const tops = await page
    .locator('hour-title-bar')
    .locator('input, button, select')
    .evaluateAll((all) => all.map((one) => Math.round(one.getBoundingClientRect().top)));
  expect(new Set(tops).size).toBe(2);
  expect((await page.locator('header').boundingBox())!.height).toBeLessThan(90);
});
