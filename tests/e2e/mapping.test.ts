import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { BrowserContext, Frame, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import {
  openSample,
  openStage,
  type Stage,
  savedPage,
  untilKept,
  type Watched,
  workbookFrame,
} from './helpers.ts';

const files = path.resolve(import.meta.dirname, '../data-in/files/corrected');

let stage: Stage;
let context: BrowserContext;
let page: Page;
let frame: Frame;
let watched: Watched;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.close());
beforeEach(async () => {
  ({ context, page, frame, watched } = await openSample(stage));
});
afterEach(() => context.close());

const stages = () => frame.locator('hour-cell[data-cell="20-stages.ts"]');
const panel = () => stages().locator('.brought-table');
const open = (file: string) => stages().locator('input[type=file]').setInputFiles(path.join(files, file));
const headings = async () =>
  (await stages().locator('[role="grid"] thead th').allTextContents()).slice(1).map((text) => text.trim());
const firstRow = async () =>
  (await stages().locator('[role="grid"] tbody tr:first-child td').allTextContents()).map((text) =>
    text.trim(),
  );
const focused = () => frame.evaluate(() => document.activeElement?.getAttribute('aria-label') ?? null);

test('a file with foreign headings, said column by column by keyboard alone, is read and kept', async () => {
  await open('foreign-headings.csv');
  await panel().locator('details[open] li').nth(4).waitFor();
  await stages()
    .locator('[role=status]', { hasText: 'It cannot be read yet: no column of intensity for cycling' })
    .waitFor();
  expect(await headings()).toEqual(['Stufe', 'Belastung', 'HF', 'Laktat', 'Borg']);
  // The file was picked, so the focus is at the columns.
  expect(await frame.evaluate(() => document.activeElement?.localName)).toBe('summary');
  for (const [label, typed] of [
    ['Stufe', 'stage'],
    ['Belastung', 'power'],
    ['HF', 'heart'],
    ['Laktat', 'lact'],
  ] as const) {
    await page.keyboard.press('Tab');
    // The units of what has several stand beside it.
    while ((await focused()) !== `${label}: taken for`) await page.keyboard.press('Tab');
    await page.keyboard.type(typed);
  }
  await expect.poll(headings).toEqual(['stage', 'power (W)', 'heart rate (bpm)', 'lactate (mmol/L)', 'Borg']);
  const report = panel().locator('.hint').first();
  await report.getByText('Read: 4 stages and the sample at rest, from 5 rows.').waitFor();
  expect(await report.textContent()).toContain('foreign-headings.csv: headings in line 4.');
  await page.keyboard.press('Tab');
  // The corrected table itself: the sample’s code and what the table replaced name this column too.
  await untilKept(page, ({ settings }) =>
    JSON.stringify(settings['20-stages.ts#stages']?.value ?? null).includes('lactate (mmol/L)'),
  );

  await page.reload();
  frame = await workbookFrame(page);
  await expect.poll(headings).toContain('lactate (mmol/L)');
  await expect.poll(firstRow).toEqual(['Ruhe', '', '62', '1,1', '']);
  // Where its headings are can still be said otherwise.
  await panel().locator('summary').click();
  await panel().getByLabel('Headings are in').selectOption('none');
  await expect.poll(headings).toContain('column 1');
  await stages().getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(headings).toContain('lactate (mmol/L)');
  // The name above the headings stays with the workbook and goes on no page.
  await untilKept(page, ({ settings }) => JSON.stringify(settings).includes('Sportlerin'));
  await page.getByRole('button', { name: 'Share page' }).click();
  const file = await savedPage(page, () => page.getByRole('button', { name: 'Save share page' }).click());
  const shared = readFileSync(file, 'utf8');
  expect(shared).toContain('Ruhe');
  expect(shared).not.toContain('Sportlerin');
  expect(watched.complaints).toEqual([]);
});

test('undo goes back through the corrections to the table before the file; all of it within 390 px', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  const before = [await headings(), await firstRow()];
  await open('two-heart-rates.csv');
  await panel().getByLabel('HR mean: taken for').selectOption('not used');
  await panel().getByText('Read: 4 stages, from 4 rows.').waitFor();
  const wide = await frame.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(wide).toBeLessThanOrEqual(0);
  const undo = stages().getByRole('button', { name: 'Undo', exact: true });
  await undo.click();
  await expect.poll(async () => (await headings())[1]).toBe('HR mean');
  await undo.click();
  await expect.poll(async () => [await headings(), await firstRow()]).toEqual(before);
  await panel().waitFor({ state: 'detached' });
});

test('a text without headings in the box leads to its columns; what is no table changes nothing', async () => {
  const before = await firstRow();
  const paste = async (text: string) => {
    await stages().locator('textarea').fill(text);
    await stages().getByRole('button', { name: 'Use this text' }).click();
  };
  await stages().getByRole('button', { name: 'Paste text…' }).click();
  await paste('a letter to somebody');
  await stages().locator('.fault', { hasText: 'no row of headings found' }).waitFor();
  expect(await firstRow()).toEqual(before);
  await paste('100;1,0\n150;1,4\n200;3,1\n250;5,8\n');
  await panel().getByLabel('column 1: taken for').selectOption('power');
  await panel().getByLabel('column 2: taken for').selectOption('lactate');
  await panel().getByText('no headings found, so the columns are numbered').waitFor();
  await panel().getByText('Read: 4 stages, from 4 rows.').waitFor();
});

test('a file refused for its headings is read once their line is said, by keyboard alone and within 390 px', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  const before = [await headings(), await firstRow()];
  await open('legend-above.csv');
  await stages().locator('.fault', { hasText: 'line 5: 5 entries, but there are 2 headings' }).waitFor();
  await panel().getByText('Say where its headings are').waitFor();
  expect(await firstRow()).toEqual(before[1]);
  // The file was picked, so the focus is at the panel.
  await page.keyboard.press('Tab');
  expect(await focused()).toBe('Headings are in');
  await page.keyboard.type('line 5');
  await expect.poll(headings).toEqual(['No', 'P', 'HR', 'La', 'RPE']);
  const wide = await frame.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(wide).toBeLessThanOrEqual(0);
  // What was passed on the way to line 5 is one step with it.
  expect(await focused()).toBe('Headings are in');
  await page.keyboard.press('Tab');
  await stages().getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(async () => [await headings(), await firstRow()]).toEqual(before);
  await panel().waitFor({ state: 'detached' });
  await stages().getByRole('button', { name: 'Redo', exact: true }).click();
  await panel().getByLabel('P: taken for').selectOption('power');
  const report = panel().locator('.hint').first();
  await report.getByText('Read: 3 stages and the sample at rest, from 4 rows.').waitFor();
  expect(await report.textContent()).toContain('legend-above.csv: headings in line 5, as you said.');
  await untilKept(page, ({ settings }) =>
    JSON.stringify(settings['20-stages.ts#stages']?.value ?? null).includes('"No","power (W)"'),
  );

  await page.reload();
  frame = await workbookFrame(page);
  await expect.poll(headings).toEqual(['No', 'power (W)', 'HR', 'La', 'RPE']);
  await expect.poll(firstRow).toEqual(['rest', '', '61', '1.1', '']);
  expect(watched.complaints).toEqual([]);
});

test('another line is chosen by mouse, its units read anew; that there are no headings can be said too', async () => {
  await open('names-above-units.csv');
  const line = panel().getByLabel('Headings are in');
  await line.selectOption('1');
  await expect
    .poll(headings)
    .toEqual(['Stufe', 'power (W)', 'Puls (1/min)', 'Laktat Ohr (mmol/l)', 'Laktat Finger (mmol/l)']);
  await panel().getByLabel('Laktat Ohr (mmol/l): taken for').selectOption('lactate');
  await panel().getByText('Read: 4 stages, from 4 rows.').waitFor();
  await line.selectOption('none');
  await expect.poll(headings).toEqual([1, 2, 3, 4, 5].map((column) => `column ${column}`));
  await panel().getByText('no headings, as you said, so the columns are numbered').waitFor();
});
