import type { BrowserContext, Frame, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { cellOf, openSample, openStage, type Stage, untilStatus, type Watched } from './helpers.ts';

const TABLE = '100-session';
const REVIEW = '105-review';
const NEXT = '110-next';

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

/** The entry of a row, by the heading of its column. */
async function entry(row: number, heading: string) {
  const headings = await cellOf(frame, TABLE).locator('[role=columnheader]').allInnerTexts();
  const column = headings.findIndex((text) => text.trim() === heading);
  return cellOf(frame, TABLE).locator('[role=grid] tbody tr').nth(row).locator('[role=gridcell]').nth(column);
}

/** Goes to an entry and types over it, down the column, as at a keyboard. */
async function typeDown(row: number, heading: string, values: readonly (string | number)[]): Promise<void> {
  // An entry that has the focus already would be edited where the pointer is, not typed over.
  await (await entry(row === 0 ? 1 : 0, heading)).click();
  await (await entry(row, heading)).click();
  for (const value of values) {
    if (value === '') await page.keyboard.press('Delete');
    else await page.keyboard.type(String(value));
    await page.keyboard.press(value === '' ? 'ArrowDown' : 'Enter');
  }
}

const says = (cell: string, text: string | RegExp) => cellOf(frame, cell).getByText(text).first().waitFor();

test('a coach sees what went wrong in a session, types in a gentler one, and gets the next', async () => {
  await cellOf(frame, REVIEW).scrollIntoViewIfNeeded();
  await says(REVIEW, 'Too hard: above the second threshold');
  await says(NEXT, /4 × 8.min at \d+–\d+.W/);
  await typeDown(0, 'power (W)', [275, 275, 275, 275]);
  await typeDown(0, 'lactate (mmol/L)', [2.6, 2.9, 2.8, 2.9]);
  await typeDown(0, 'HR', [160, 162, 163, 164]);
  await says(REVIEW, /^Under the second threshold|^At or just under/);
  await typeDown(3, 'signs', ['nausea']);
  await says(REVIEW, 'Too hard, whatever the lactate');
  await says(NEXT, /after 48 easy hours: 3 × 8/);
  await typeDown(3, 'signs', ['chest pain']);
  await says(REVIEW, 'Stop: a doctor first');
  await says(NEXT, 'No session yet');
  await typeDown(3, 'signs', ['']);
  await says(REVIEW, /^Under the second threshold|^At or just under/);
});

test.each([
  ['minute', 1, '', '8:00', /no time; expected the minute of the rep/],
  ['lactate (mmol/L)', 2, '-2.8', '2.8', /"-2\.8" is not possible; expected 0\.1 to 35 mmol\/L/],
  ['HR', 0, '400', '160', /"400" is not possible; expected 25 to 250 bpm/],
  ['rep', 3, '1', '4', /rep 1 stands after rep 3; expected the reps in the order they were done/],
] as const)(
  'a slip in %s gets a sentence at the table and loses nothing',
  async (heading, row, slip, right, sentence) => {
    await typeDown(row, heading, [slip]);
    await says(TABLE, sentence);
    await says(REVIEW, sentence);
    // What else was typed is still there, and cells that do not read the session show what they did.
    expect((await (await entry(1, 'power (W)')).textContent())?.trim()).toBe('275');
    expect(await cellOf(frame, '90-summary').locator('.result').textContent()).toContain('What your');
    await typeDown(row, heading, [right]);
    await says(REVIEW, /^Under the second threshold|^At or just under/);
    await expect.poll(() => cellOf(frame, TABLE).getByText(sentence).count()).toBe(0);
  },
);

test('three more reps in reserve bring the choice of longer ones', async () => {
  expect(await cellOf(frame, NEXT).getByText('reasonably uncomfortable').count()).toBe(0);
  await cellOf(frame, '102-around').getByRole('radio', { name: 'three or more' }).check();
  await says(NEXT, /reasonably uncomfortable/);
  await untilStatus(page, 'Up to date');
  expect(watched.complaints).toEqual([]);
});
