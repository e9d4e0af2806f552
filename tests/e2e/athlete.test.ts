import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { BrowserContext, Frame, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { cellOf, openStage, type Stage, typeInto, untilStatus, watch, workbookFrame } from './helpers.ts';

/** A real test (CC0, see tests/references/step-tests), with 4.0 mmol/L at 342.964 W on the cubic. */
const REAL_TEST = path.resolve(import.meta.dirname, '../cli/files/10-pre.csv');

const CELLS = path.resolve(import.meta.dirname, '../../cells/athlete');

/** The row of a method in the table of thresholds, as text. */
async function rowOf(frame: Frame, method: string): Promise<string[]> {
  const row = cellOf(frame, '50-thresholds').locator('table tr', { hasText: method }).first();
  return row.locator('th, td').allInnerTexts();
}

describe.each([
  { width: 1440, height: 900, theme: 'light' as const },
  { width: 390, height: 844, theme: 'dark' as const },
])('the main job at $width px, $theme', ({ width, height, theme }) => {
  let stage: Stage;
  let context: BrowserContext;
  let page: Page;
  let frame: Frame;
  beforeAll(async () => {
    stage = await openStage();
  });
  afterAll(() => stage.close());
  beforeEach(async () => {
    context = await stage.browser.newContext({ viewport: { width, height }, colorScheme: theme });
    page = await context.newPage();
    await page.goto(stage.served.url);
    frame = await workbookFrame(page);
    await untilStatus(page, 'Up to date');
  });
  afterEach(() => context.close());

  test('a practitioner brings a real test and reads its thresholds with their error', async () => {
    const watched = watch(page);
    await cellOf(frame, '20-stages').locator('input[type=file]').setInputFiles(REAL_TEST);
    await cellOf(frame, '35-model').locator('select').first().selectOption('cubic');
    await untilStatus(page, 'Up to date');
    // What is off the screen is drawn when the page is idle.
    await expect.poll(async () => (await rowOf(frame, 'Fixed 4.0'))[1], { timeout: 20_000 }).toBe('343');
    const width = async () => {
      const [low, high] = (await rowOf(frame, 'Fixed 3.0'))[2]!.split('–').map(Number);
      return high! - low!;
    };
    const usual = await width();
    expect(usual).toBeGreaterThan(2);
    // A meter that repeats worse must widen the interval.
    const repeatability = cellOf(frame, '60-meter').locator('input.number-entry').first();
    await repeatability.fill('0.3');
    await repeatability.press('Enter');
    await expect.poll(width, { timeout: 20_000 }).toBeGreaterThan(usual);
    expect(watched.complaints).toEqual([]);
  });

  test('a student edits the curve, breaks a cell and mends it; the rest goes on', async () => {
    const before = await rowOf(frame, 'Fixed 4.0');
    const text = readFileSync(path.join(CELLS, '40-curve.ts'), 'utf8');
    await cellOf(frame, '40-curve').scrollIntoViewIfNeeded();
    await typeInto(page, frame, '40-curve.ts', text.replace('model: model.value', "model: 'quartic'"));
    await untilStatus(page, 'Up to date');
    await expect
      .poll(async () => (await rowOf(frame, 'Fixed 4.0')).join(), { timeout: 20_000 })
      .not.toBe(before.join());
    await typeInto(page, frame, '40-curve.ts', text.replace('model: model.value', 'model: modle.value'));
    await cellOf(frame, '40-curve').getByText('modle is not defined').first().waitFor();
    expect(await cellOf(frame, '30-checks').locator('.result').textContent()).not.toBe('');
    expect(await cellOf(frame, '50-thresholds').textContent()).toContain('40-curve');
    await typeInto(page, frame, '40-curve.ts', text);
    await expect.poll(() => rowOf(frame, 'Fixed 4.0'), { timeout: 20_000 }).toEqual(before);
  });

  test('nothing is wider than the window', async () => {
    const [scroll, client] = await frame.evaluate(() => {
      const root = document.documentElement;
      return [root.scrollWidth, root.clientWidth];
    });
    expect(scroll).toBeLessThanOrEqual(client!);
  });
});
