import { mkdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import type { Frame, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readSharePage } from '../../src/host/share/embedded.ts';
import { barriers, barriersIn } from './barriers.ts';
import {
  barButton,
  cellOf,
  openSample,
  openStage,
  type Stage,
  savedPage,
  textOf,
  untilStatus,
  workbookFrame,
} from './helpers.ts';
import { backToContents, fill, press, pressInTitleBar, readOn, tabTo } from './keys.ts';

/** A real test (CC0, see tests/references/step-tests), with 4.0 mmol/L at 342.964 W on the cubic. */
const REAL_TEST = path.resolve(import.meta.dirname, '../cli/files/10-pre.csv');
/** Where to leave pictures of every state that is looked at, to be judged by eye; nowhere unless it is named. */
const SHOTS = process.env.HOURLINE_SHOTS;
/** Drawing away from what is visible waits until the page is idle. */
const PATIENT = { timeout: 20_000 };

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
  if (SHOTS) mkdirSync(SHOTS, { recursive: true });
});
afterAll(() => stage.close());

/** axe-core finds nothing in the page around the frame and in the cells that are looked at, in both themes. */
async function isClean(page: Page, frame: Frame, cells: readonly string[]): Promise<void> {
  for (const colorScheme of SHOTS ? (['light', 'dark'] as const) : []) {
    await page.emulateMedia({ colorScheme });
    // The frame is told of it by the page around it.
    await frame.locator(`html[data-theme="${colorScheme}"]`).waitFor();
    const file = `${cells[0]}-${page.viewportSize()!.width}-${colorScheme}.png`;
    await page.screenshot({ path: path.join(SHOTS!, file) });
  }
  expect(await barriersIn(frame, page, cells)).toEqual([]);
  // The workbook in the frame has the heading.
  const rules = { 'frame-tested': { enabled: false }, 'page-has-heading-one': { enabled: false } };
  expect(await barriers(page, { rules })).toEqual([]);
}

const open = (width: number, address = '') =>
  openSample(stage, { viewport: { width, height: 900 }, address });

/** Saves the share page from its dialog, which is open. */
const saveSharePage = (page: Page): Promise<string> =>
  savedPage(page, () => press(page, page.getByRole('button', { name: 'Save share page' })));

describe.each([1440, 390])('by keyboard alone at %i px', (width) => {
  test('a practitioner goes from a table to the share page', async () => {
    const { context, page, frame, watched } = await open(width);
    const cell = (name: string) => cellOf(frame, name);
    const entryOf = async (method: string, column: number) => {
      const row = cell('50-thresholds').locator('table tr', { hasText: method }).first();
      return row.locator('td').nth(column).textContent();
    };
    const range = async () => {
      const [low, high] = (await entryOf('Fixed 3.0', 1))!.split('–').map(Number);
      return high! - low!;
    };

    await readOn(page, frame, 'The stages');
    await tabTo(page, cell('20-stages').getByRole('gridcell').first());
    await page.keyboard.press('Escape'); // else Tab would go on to the next entry
    await press(page, cell('20-stages').getByRole('button', { name: 'Paste text…' }));
    await tabTo(page, cell('20-stages').getByRole('textbox', { name: /^Text of a table/ }));
    await page.keyboard.insertText(readFileSync(REAL_TEST, 'utf8'));
    await press(page, cell('20-stages').getByRole('button', { name: 'Use this text' }));
    await cell('20-stages').getByText('Read: 8 stages, from 8 rows.').waitFor();
    await isClean(page, frame, ['20-stages']);

    await backToContents(page, cell('20-stages'));
    await readOn(page, frame, 'How to read the curve');
    await tabTo(page, cell('35-model').getByRole('combobox').first());
    await page.keyboard.type('cub');
    await backToContents(page, cell('35-model'));
    await readOn(page, frame, 'The thresholds, by every method');
    await expect.poll(() => entryOf('Fixed 4.0', 0), PATIENT).toBe('343');
    const before = await range();
    expect(before).toBeGreaterThan(2);

    await backToContents(page, cell('50-thresholds'));
    await readOn(page, frame, 'What may be off');
    await fill(page, cell('60-meter').getByRole('textbox').first(), '0.3');
    await expect.poll(range, PATIENT).toBeGreaterThan(before);
    await isClean(page, frame, ['50-thresholds', '60-meter']);

    await backToContents(page, cell('60-meter'));
    await readOn(page, frame, 'The curve');
    const last = cell('40-curve').getByRole('slider').last();
    await press(page, last, 'ArrowUp');
    await expect.poll(() => last.getAttribute('aria-valuetext')).toBe('4.8 mmol/L');
    await frame.getByRole('status').getByText('was moved from 4.69 to 4.8').waitFor();
    await page.keyboard.press('ControlOrMeta+z');
    await expect.poll(() => last.getAttribute('aria-valuetext')).toBe('4.69 mmol/L');

    await backToContents(page, cell('40-curve'));
    await readOn(page, frame, 'The last session');
    await tabTo(page, cell('100-session').getByRole('gridcell').first());
    for (let i = 0; i < 3; i++) await page.keyboard.press('ArrowRight');
    for (const lactate of ['2.6', '2.9', '2.8', '2.9']) {
      await page.keyboard.type(lactate);
      await page.keyboard.press('Enter');
    }
    await cell('105-review')
      .getByText(/Reps at 295.W; .* Lactate was heading for about 3\.0.mmol\/L/)
      .first()
      .waitFor();
    await cell('110-next')
      .getByText(/\d × \d+.min at \d+–\d+.W/)
      .first()
      .waitFor();
    await page.keyboard.press('Escape');
    await isClean(page, frame, ['100-session', '105-review', '110-next']);

    await backToContents(page, cell('100-session'));
    await pressInTitleBar(page, 'Share page');
    const file = await saveSharePage(page);
    expect((await readSharePage(readFileSync(file, 'utf8'))).document.settings).toMatchObject({
      '60-meter.ts#repeatability': { value: 0.3 },
    });
    expect(watched.complaints).toEqual([]);
    await context.close();
  });

  test('a student changes the test, unfolds an answer, stops a class, and edits and resets a cell', async () => {
    const { context, page, frame, watched } = await open(width, '#lesson');
    const cell = (name: string) => cellOf(frame, name);
    const truth = () => cell('25-truth').locator('table').first().textContent();

    await readOn(page, frame, 'A step test');
    const before = await truth();
    await press(page, cell('15-protocol').getByRole('slider').first(), 'ArrowRight');
    await expect.poll(truth, PATIENT).not.toBe(before);

    const answer = cell('28-look').locator('details');
    await backToContents(page, cell('15-protocol'));
    await readOn(page, frame, 'Every method against the truth');
    await press(page, answer.locator('summary'));
    await answer.getByText('None is nearest for all').waitFor();
    await isClean(page, frame, ['25-truth', '28-look']);

    await backToContents(page, cell('28-look'));
    await readOn(page, frame, 'A class of athletes');
    const inClass = (name: string) => cell('35-tested').getByRole('button', { name, exact: true });
    await press(page, inClass('Begin'));
    await press(page, inClass('Cancel'));
    await cell('35-tested')
      .getByText(/^Cancelled\. \d+ of 200 athletes tested/)
      .waitFor();
    await isClean(page, frame, ['30-class', '35-tested']);

    const lengths = cell('42-lengths');
    await backToContents(page, cell('35-tested'));
    await readOn(page, frame, '1. Why does 4 mmol/L move when stages get longer?');
    await tabTo(page, lengths.locator('.cm-content, .plain-code'));
    await page.keyboard.press('ControlOrMeta+A');
    await page.keyboard.insertText(
      (await textOf(frame, '42-lengths.ts')).replace('[1, 3, 5, 8]', '[2, 4, 6]'),
    );
    await lengths
      .getByText(/from \d+.W with 2-min stages/)
      .first()
      .waitFor();
    await page.keyboard.press('Escape');
    await tabTo(page, lengths.getByRole('button', { name: /^Actions for / }), { back: true });
    // Last in the menu is the way to the contents, before it Delete.
    for (const key of ['Enter', 'End', 'ArrowUp', 'ArrowUp']) await page.keyboard.press(key);
    expect(await frame.locator('[role=menuitem]:focus').textContent()).toBe('Reset to the original text');
    await page.keyboard.press('Enter');
    await lengths
      .getByText(/from \d+.W with 1-min stages/)
      .first()
      .waitFor();
    expect(watched.complaints).toEqual([]);
    await context.close();
  });

  test('a coach leaves out who it is, reads the page without scripts, and opens it again', async () => {
    const { context, page, watched } = await open(width);
    await press(page, page.getByRole('button', { name: 'Share page', exact: true }));
    await press(page, page.getByLabel('Leave out who the athlete is'), 'Space');
    const file = await saveSharePage(page);
    await page.locator('hour-share-dialog dialog').waitFor({ state: 'hidden' });

    const withoutScripts = await stage.browser.newContext({
      ...{ javaScriptEnabled: false, viewport: { width, height: 900 } },
      colorScheme: width === 390 ? 'dark' : 'light',
    });
    const reader = await withoutScripts.newPage();
    await reader.goto(`file://${file}`);
    const short = reader.getByRole('region', { name: 'In short' });
    await short.getByText('Too hard: above the second threshold').first().waitFor();
    await short
      .getByText(/^Easy:/)
      .first()
      .waitFor();
    expect(await reader.locator('body').textContent()).not.toContain('C-01');
    expect(await reader.getByRole('heading', { level: 1 }).first().textContent()).toContain('Step test');
    const source = reader.locator('details.source', { hasText: 'Code of 00-welcome.ts' });
    await press(reader, source.locator('summary'));
    await source.locator('code').waitFor();
    if (SHOTS) await reader.screenshot({ path: path.join(SHOTS, `share-${width}.png`) });
    await withoutScripts.close();

    await pressInTitleBar(page, 'Workbooks');
    const chosen = page.waitForEvent('filechooser');
    await press(page, page.locator('hour-workbooks-dialog input[type=file]'), 'Enter');
    await (await chosen).setFiles(file);
    await untilStatus(page, 'Not running');
    await press(page, barButton(page, 'Run'));
    await untilStatus(page, 'Up to date');
    const frame = await workbookFrame(page);
    await cellOf(frame, '90-summary').getByText('What your test says').first().waitFor();
    expect(watched.complaints).toEqual([]);
    await context.close();
  });
});
