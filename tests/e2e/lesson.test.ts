import type { Frame } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { barriersIn } from './barriers.ts';
import { cellOf, openSample, openStage, type Stage, untilStatus } from './helpers.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.close());

/** The lesson in a fresh profile, run and watched from the beginning. */
const openLesson = (width = 1440, colorScheme: 'light' | 'dark' = 'light') =>
  openSample(stage, { viewport: { width, height: 900 }, colorScheme, address: '#lesson' });

/** Waits until a cell shows a text, with the cell in sight: what is away from it is drawn a little later. */
async function says(frame: Frame, cell: string, text: string | RegExp): Promise<void> {
  await cellOf(frame, cell).scrollIntoViewIfNeeded();
  await cellOf(frame, cell).getByText(text).first().waitFor();
}

describe('a student, by keyboard', () => {
  let opened: Awaited<ReturnType<typeof openLesson>>;
  beforeAll(async () => {
    opened = await openLesson();
  });
  afterAll(() => opened.context.close());

  test('chooses an athlete, sees a method fall silent, and unfolds the answer', async () => {
    const { page, frame } = opened;
    const choice = cellOf(frame, '10-kind');
    await choice.scrollIntoViewIfNeeded();
    await choice.getByLabel('trained cyclist').focus();
    await page.keyboard.press('ArrowDown');
    await says(frame, '12-athlete', '338');
    // Repeats come when the hand rests; of the trained cyclist's none leave 4 mmol/L without an answer.
    await cellOf(frame, '25-truth').scrollIntoViewIfNeeded();
    const silent = cellOf(frame, '25-truth')
      .getByRole('row', { name: /^Fixed 4\.0/ })
      .getByRole('cell')
      .last();
    await expect.poll(() => silent.textContent(), { timeout: 10_000 }).toMatch(/^[1-9]\d\s%$/);
    const answer = cellOf(frame, '28-look').locator('details');
    expect(await answer.getAttribute('open')).toBeNull();
    await answer.locator('summary').focus();
    await page.keyboard.press('Enter');
    await says(frame, '28-look', /None is nearest for all/);
    await page.keyboard.press('Enter');
    await choice.getByLabel('the same, low glycolytic rate').focus();
    await page.keyboard.press('ArrowUp');
    await says(frame, '12-athlete', '312');
    // A class that has begun would begin anew with its cell.
    await untilStatus(page, 'Up to date');
  });

  test('tests a class: progress, cancel, and again to the end', async () => {
    const { page, frame } = opened;
    const cell = cellOf(frame, '35-tested');
    await cell.scrollIntoViewIfNeeded();
    const button = (name: string) => cell.getByRole('button', { name, exact: true });
    await button('Begin').focus();
    await page.keyboard.press('Enter');
    await cell.getByRole('progressbar').waitFor();
    await cell.getByRole('img', { name: /Every method over \d+ simulated athletes/ }).waitFor();
    await button('Cancel').focus();
    await page.keyboard.press('Enter');
    await cell.getByText(/^Cancelled\. \d+ of 200 athletes tested/).waitFor();
    await button('Begin again').focus();
    await page.keyboard.press('Enter');
    await cell.getByText(/^200 of 200 athletes tested/).waitFor({ timeout: 60_000 });
    await cell.getByRole('img', { name: /Every method over 200 simulated athletes/ }).waitFor();
    expect(await cell.getByRole('progressbar').count()).toBe(0);
    await says(frame, '35-tested', 'A model, not people. What differs');
  });

  test('follows another method over the length of stages', async () => {
    const { frame } = opened;
    await says(frame, '42-lengths', /Fixed 4\.0 goes from \d+.W with 1-min stages/);
    await cellOf(frame, '40-longer').getByRole('combobox').selectOption({ label: 'Dmax (LT2)' });
    await says(frame, '42-lengths', /Dmax goes from \d+.W with 1-min stages/);
  });

  test('moves a reading with the arrow keys, sees who goes along, and takes it back in the table', async () => {
    const { page, frame, watched } = opened;
    await says(frame, '62-dragged', /No method moves/);
    const last = cellOf(frame, '62-dragged').getByRole('slider').last();
    await last.focus();
    for (let i = 0; i < 6; i++) {
      await page.keyboard.press('ArrowUp');
      await says(frame, '62-dragged', `became ${(8.6 + i / 10).toFixed(1)}`);
    }
    await says(frame, '62-dragged', /[1-9]\d* of \d+ methods move, .+ most/);
    await cellOf(frame, '60-reading').locator('summary').click();
    await cellOf(frame, '60-reading').getByRole('gridcell', { name: '9.1', exact: true }).waitFor();
    expect(watched.complaints).toEqual([]);
  });
});

describe.each([
  [1440, 'light'],
  [390, 'dark'],
] as const)('at %i px, %s', (width, theme) => {
  test('axe-core finds no barrier with all answers open, and nothing is wider than the page', async () => {
    const { context, page, frame, watched } = await openLesson(width, theme);
    const cells = await frame.locator('hour-cell').count();
    for (let i = 0; i < cells; i++) await frame.locator('hour-cell').nth(i).scrollIntoViewIfNeeded();
    await cellOf(frame, '90-keep').getByRole('heading', { name: 'What to keep' }).waitFor();
    for (const details of await frame.locator('.result details').all())
      await details.evaluate((element) => element.setAttribute('open', ''));
    expect(await barriersIn(frame, page)).toEqual([]);
    const wider = await frame.evaluate('document.documentElement.scrollWidth - innerWidth');
    expect(wider).toBeLessThanOrEqual(0);
    expect(watched.complaints).toEqual([]);
    await context.close();
  });
});
