import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { BrowserContext, Frame, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { cellOf, openSample, openStage, type Stage, type Watched } from './helpers.ts';

let stage: Stage;
let context: BrowserContext;
let page: Page;
let frame: Frame;
let watched: Watched;
beforeAll(async () => {
  stage = await openStage();
  ({ context, page, frame, watched } = await openSample(stage));
});
afterAll(async () => {
  await context.close();
  await stage.close();
});

const says = async (cell: string, text: string | RegExp) => {
  await cellOf(frame, cell).scrollIntoViewIfNeeded();
  await cellOf(frame, cell).getByText(text).first().waitFor();
};

/** Goes to an entry of a cell's table, by row and column, and types over it. */
async function typeOver(cell: string, row: number, column: number, text: string): Promise<void> {
  const entry = (at: number) =>
    cellOf(frame, cell).locator('[role=grid] tbody tr').nth(at).locator('[role=gridcell]').nth(column);
  // An entry that has the focus already would be edited where the pointer is, not typed over.
  await entry(row === 0 ? 1 : 0).click();
  await entry(row).click();
  if (text === '') await page.keyboard.press('Delete');
  else await page.keyboard.type(text);
  await page.keyboard.press(text === '' ? 'ArrowDown' : 'Enter');
}

const textAt = (cell: string, row: number, column: number) =>
  cellOf(frame, cell)
    .locator('[role=grid] tbody tr')
    .nth(row)
    .locator('[role=gridcell]')
    .nth(column)
    .textContent();

/** Types a number into a field of a cell, by its label. */
async function fill(cell: string, label: string, text: string): Promise<void> {
  const field = cellOf(frame, cell).getByLabel(label, { exact: true });
  await field.focus();
  await page.keyboard.press('ControlOrMeta+A');
  await page.keyboard.type(text);
  await page.keyboard.press('Enter');
}

test('an athlete’s claim is judged, a gentler one too, and a break from training counts', async () => {
  await says('125-hour', /290.W for an hour: not likely/);
  await fill('122-claim', 'The athlete claims', '230');
  await says('125-hour', /230.W for an hour: likely/);
  await fill('123-since', 'Of these without training, up to today', '70');
  await says('125-hour', /After more than 8 weeks without training/);
  await fill('123-since', 'Of these without training, up to today', '0');
  await says('125-hour', /230.W for an hour: likely/);
});

test('an effort that cannot be read is told in one sentence; the entry stays and the rest goes on', async () => {
  await typeOver('120-efforts', 4, 1, 'fast');
  await says('125-hour', /"fast" is not a number; expected power in W/);
  expect((await textAt('120-efforts', 4, 1))?.trim()).toBe('fast');
  await says('135-zones', 'were harder than meant');
  await says('157-fuel', /of training: 30–60/);
  await typeOver('120-efforts', 4, 1, '291');
  await says('125-hour', /230.W for an hour: likely/);
});

test('a heart rate of 400 stops the zones alone; a recording from a file takes the week’s place', async () => {
  await typeOver('130-week', 2, 3, '400');
  await says('135-zones', /heart rate "400" is not possible; expected 25 to 250 bpm/);
  await says('148-retest', /No change of the second threshold is shown/);
  const file = path.join(mkdtempSync(path.join(tmpdir(), 'hourline-')), 'recording.csv');
  const rows = Array.from({ length: 3600 }, (_, s) => `${s},${s < 2700 ? 150 : 330}`);
  writeFileSync(file, `elapsed (s),power (W)\n${rows.join('\n')}\n`);
  await cellOf(frame, '130-week').locator('input[type=file]').setInputFiles(file);
  await says('135-zones', /By time in zone: polarized/);
  await says('135-zones', /easy 75.%/);
});

test('another meter cannot be compared; illness takes the advice on food away', async () => {
  const meters = cellOf(frame, '140-earlier')
    .getByRole('group', { name: 'Same lactate meter' })
    .getByLabel('no', { exact: true });
  await meters.focus();
  await page.keyboard.press('Space');
  await says('148-retest', /Cannot be compared with/);
  await says('148-retest', /meters differ from each other by more than athletes change/);
  await cellOf(frame, '150-day').getByRole('checkbox', { name: 'Ill, or not yet well again' }).focus();
  await page.keyboard.press('Space');
  await says('157-fuel', 'Ill: no advice on food from here');
  expect(watched.complaints).toEqual([]);
});
