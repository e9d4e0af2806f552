import path from 'node:path';
import type { BrowserContext, Frame, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, expect, test } from 'vitest';
import { openSample, openStage, type Stage, type Watched } from './helpers.ts';

const files = path.resolve(import.meta.dirname, '../data-in/files');

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
const open = (file: string) => stages().locator('input[type=file]').setInputFiles(path.join(files, file));
const column = async (number: number) =>
  (await stages().locator(`[role="grid"] tbody tr td:nth-of-type(${number})`).allTextContents()).map(
    (entry) => entry.trim(),
  );
/** Sets a field as a reader who types and leaves it. */
async function fill(label: string, text: string): Promise<void> {
  await stages().getByLabel(label).fill(text);
  await stages().getByLabel(label).press('Tab');
}

/** Role of what has the focus, else what it says. */
const focused = () =>
  frame.evaluate(() => document.activeElement?.getAttribute('role') ?? document.activeElement?.textContent);

/** What make.py set: 90 s each at these powers. */
const POWERS = ['100', '130', '160', '190', '220'];

test('a recording is cut by its laps, corrected by keyboard and mouse, and becomes stages with their lactate', async () => {
  await open('activities/laps.fit');
  const panel = stages().locator('hour-recording');
  await panel.locator('tbody tr').nth(4).waitFor();
  expect(await panel.locator('tbody td:nth-child(5)').allTextContents()).toEqual(POWERS);

  await panel.getByLabel('End of stretch 5').focus();
  await page.keyboard.press('ArrowDown');
  expect(await panel.getByLabel('End of stretch 5').inputValue()).toBe('7:25');
  const course = (await panel.locator('.course').boundingBox())!;
  const x = (second: number) => course.x + (second / 450) * course.width;
  await page.mouse.move(x(445), course.y + 20);
  await page.mouse.down();
  await page.mouse.move(x(430), course.y + 20, { steps: 3 });
  await page.mouse.up();
  expect(['7:09', '7:10', '7:11']).toContain(await panel.getByLabel('End of stretch 5').inputValue());

  await panel.locator('textarea').fill('1 1.0\n2: 1,2\nstage 3 = 1.9\n+6:00 2.8 mmol/L\n9 9.9');
  await panel.getByRole('button', { name: 'Use these stages' }).click();
  await panel.locator('.fault', { hasText: 'stage 9' }).waitFor();
  await panel.locator('textarea').fill('1 1.0\n2: 1,2\nstage 3 = 1.9\n+6:00 25.22 mg/dL\n5 4.4');
  await panel.getByRole('button', { name: 'Use these stages' }).click();
  await panel.waitFor({ state: 'detached' });
  await expect.poll(focused).toBe('gridcell'); // the button that was pressed is gone
  expect(await column(2)).toEqual(POWERS);
  expect(await column(5)).toEqual(['1', '1.2', '1.9', '2.8', '4.4']);
  await stages().getByRole('button', { name: 'Undo', exact: true }).click();
  await expect.poll(() => column(2)).not.toEqual(POWERS);
  expect(watched.complaints).toEqual([]);
});

test('a lap that is no stage is left out, a time that is none is told, and Cancel changes nothing', async () => {
  const before = await column(3);
  await open('activities/laps.tcx');
  const panel = stages().locator('hour-recording');
  await panel.locator('tbody tr').nth(4).waitFor();
  await fill('Start of stretch 2', 'soon');
  await panel.locator('.fault', { hasText: '"soon" is no time in the recording' }).waitFor();
  await panel.getByLabel('Take stretch 1').uncheck();
  await panel.getByRole('button', { name: 'Cancel' }).click();
  expect(await column(3)).toEqual(before);
  expect(await focused()).toBe('Open a file…');

  await open('activities/laps.tcx');
  await panel.getByLabel('Take stretch 1').uncheck();
  await panel.getByRole('button', { name: 'Use these stages' }).click();
  await expect.poll(() => column(2)).toEqual(POWERS.slice(1));
});

test('laps that mean nothing give way to the steps, and a stretch is split', async () => {
  await open('activities/laps.tcx');
  const panel = stages().locator('hour-recording');
  await panel.locator('tbody tr').nth(4).waitFor();
  await panel.getByRole('button', { name: 'Split stretch 5 in two' }).click();
  await fill('Start of stretch 6', '7:00');
  expect(await panel.locator('tbody tr').count()).toBe(6);
  await panel.getByLabel('Take stretch 6').uncheck();
  await panel.getByRole('button', { name: 'Use these stages' }).click();
  await expect.poll(() => column(2)).toEqual(POWERS);
  expect(await column(4)).toEqual(['1.50', '1.50', '1.50', '1.50', '0.75']);

  await open('activities/laps.tcx');
  await panel.getByRole('button', { name: 'Split stretch 5 in two' }).click();
  await panel.getByLabel('Cut', { exact: true }).selectOption('where its intensity steps');
  await expect.poll(() => panel.locator('tbody tr').count()).toBe(5);
  await panel.getByRole('button', { name: 'Use these stages' }).click();
  await expect.poll(() => column(2)).toEqual(POWERS);
});

test('a spreadsheet is read, another of its sheets can be chosen, and what is none says so', async () => {
  await open('spreadsheets/three-sheets.xlsx');
  const sheet = stages().getByLabel('Sheet of three-sheets.xlsx');
  expect(await sheet.inputValue()).toBe('Winter & spring'); // the first that holds anything
  await expect.poll(async () => (await column(1))[0]).toBe('100');
  await sheet.selectOption('Autumn');
  await expect.poll(async () => (await column(1))[0]).toBe('120');
  await sheet.selectOption('Cover');
  await stages().locator('.fault').waitFor();
  expect((await column(1))[0]).toBe('120');
  await sheet.selectOption('Winter & spring');
  await expect.poll(async () => (await column(1))[0]).toBe('100');
  const damaged = { name: 'damaged.xlsx', mimeType: '', buffer: Buffer.from('PK\x03\x04 and no more') };
  await stages().locator('input[type=file]').setInputFiles(damaged);
  await stages().locator('.fault', { hasText: 'damaged.xlsx' }).waitFor();
});

test('at 390 px the recording stays within the window', async () => {
  await page.setViewportSize({ width: 390, height: 844 });
  await open('activities/laps.fit');
  await stages().locator('hour-recording tbody tr').nth(4).waitFor();
  const wide = await frame.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  expect(wide).toBeLessThanOrEqual(0);
});
