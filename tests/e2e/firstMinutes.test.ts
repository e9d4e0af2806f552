import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Frame, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { readSharePage } from '../../src/host/share/embedded.ts';
import { barriersIn } from './barriers.ts';
import { cellOf, openSample, openStage, type Stage, savedPage, type Watched } from './helpers.ts';
import { backToContents, press, pressInTitleBar, tabTo } from './keys.ts';

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.close());

const TOUR = '158-first-minutes';

const CURVE = readFileSync(path.resolve(import.meta.dirname, '../../cells/athlete/40-curve.ts'), 'utf8');

/** A test of the reader's own, as a spreadsheet puts it on the clipboard. */
const OWN = `power (W)\tlactate (mmol/L)
100\t1.1
140\t1.0
180\t1.2
220\t1.6
260\t2.6
300\t4.9
340\t8.7`;

/** Drawing away from what is visible waits until the page is idle. */
const PATIENT = { timeout: 30_000 };

const open = (width: number, colorScheme: 'light' | 'dark') =>
  openSample(stage, {
    viewport: { width, height: 900 },
    colorScheme,
    permissions: ['clipboard-read', 'clipboard-write'],
  });

describe.each([
  [1440, 'light'],
  [390, 'dark'],
] as const)('the first five minutes at %i px, %s, by keyboard', (width, theme) => {
  let page: Page;
  let frame: Frame;
  let watched: Watched;
  beforeAll(async () => {
    ({ page, frame, watched } = await open(width, theme));
  });
  afterAll(() => page.context().close());

  const step = (words: string) => cellOf(frame, TOUR).getByRole('button', { name: words, exact: true });
  const wayBack = () => frame.getByRole('button', { name: `Back to ${TOUR}` });
  const hasFocus = (target: Locator) => target.evaluate((element) => element === document.activeElement);
  const result = async (cell: string) =>
    (await cellOf(frame, cell).locator('hour-result').textContent()) ?? '';
  const says = (cell: string, text: string | RegExp) =>
    expect.poll(() => result(cell), PATIENT).toMatch(text);
  const changes = (cell: string, before: string) => expect.poll(() => result(cell), PATIENT).not.toBe(before);

  async function keys(...pressed: string[]): Promise<void> {
    for (const key of pressed) await page.keyboard.press(key);
  }

  /** Follows a step of the list and stands in its cell. */
  async function follow(words: string, cell: string): Promise<Locator> {
    await press(page, step(words));
    await expect.poll(() => hasFocus(cellOf(frame, cell).locator('section'))).toBe(true);
    return cellOf(frame, cell);
  }

  /** The way back is the first stop of the cell, and leads to the step. */
  async function back(words: string): Promise<void> {
    await tabTo(page, wayBack(), { back: true });
    await keys('Enter');
    expect(await hasFocus(step(words))).toBe(true);
    expect(await wayBack().count()).toBe(0);
  }

  test('lie behind a line at the top', async () => {
    await page.locator('main > iframe').focus();
    await press(page, cellOf(frame, '02-new-here').getByRole('button', { name: 'your first five minutes' }));
    await tabTo(page, step('Read the answer'));
  });

  test('1: the answer, and back', async () => {
    await follow('Read the answer', '72-chosen');
    await keys('Tab');
    expect(await hasFocus(wayBack())).toBe(true);
    await says('72-chosen', /Second threshold \(LT2\).*95.% interval/s);
    await back('Read the answer');
  });

  test('2: a reading is moved by the arrow keys, and the thresholds follow', async () => {
    const before = await result('72-chosen');
    const reading = (await follow('Drag a reading', '40-curve')).getByRole('slider', { name: /270/ });
    await tabTo(page, reading);
    // The next press counts from what is drawn.
    const becomes = async (key: string, lactate: string) => {
      await keys(key);
      await expect.poll(() => reading.getAttribute('aria-valuenow'), PATIENT).toBe(lactate);
    };
    for (const lactate of ['2.3', '2.4', '2.5', '2.6']) await becomes('ArrowUp', lactate);
    await changes('72-chosen', before);
    for (const lactate of ['2.5', '2.4', '2.3', '2.2']) await becomes('ArrowDown', lactate);
    await says('00-welcome', 'all readings are invented');
    await back('Drag a reading');
  });

  test('3: the meter repeats otherwise, and the range follows', async () => {
    const before = await result('72-chosen');
    const panel = await follow('Move the meter’s error', '65-sensitivity');
    const slider = panel.getByRole('slider', { name: 'Repeatability of the meter' });
    await tabTo(page, slider);
    const about = await slider.getAttribute('aria-describedby');
    expect(await frame.locator(`#${about}`).textContent()).toMatch(/^How far readings of the same blood/);
    await keys('Home');
    await changes('72-chosen', before);
    await back('Move the meter’s error');
  });

  test('explanations open and close from the keyboard, and say who says so', async () => {
    const shown = async () => (await frame.locator('.explanation:popover-open').allInnerTexts()).join();
    const panel = await follow('Move the meter’s error', '65-sensitivity');
    for (const [name, says] of [
      ['ridge', /A small hill over the axis.*Source: our rule/s],
      ['About: Repeatability of the meter', /How far readings.*Source: .*Mentzoni 2024/s],
    ] as const) {
      const button = panel.getByRole('button', { name, exact: true });
      await press(page, button);
      expect(await shown()).toMatch(says);
      await keys('Escape');
      expect(await shown()).toBe('');
      expect(await hasFocus(button)).toBe(true);
    }
    await back('Move the meter’s error');
  });

  test('4: how Dmax is found', async () => {
    await tabTo(page, (await follow('Ask how one is found', '54-which')).getByRole('combobox'));
    await page.keyboard.type('Dmax');
    await says('55-found', /the line between its ends/);
    await back('Ask how one is found');
  });

  test('5: a line of code is changed, and reset', async () => {
    const before = await result('72-chosen');
    const cell = await follow('Change the code', '40-curve');
    await tabTo(page, cell.locator('.cm-content'));
    // At the keyboard, one word; here the whole text, since lines break differently at each width.
    await keys('ControlOrMeta+A');
    await page.keyboard.insertText(CURVE.replace('model.value', "'cubic'"));
    await changes('72-chosen', before);
    await keys('Escape');
    await tabTo(page, cell.getByRole('button', { name: 'Actions for 40-curve' }), { back: true });
    await keys('Enter');
    const reset = cell.getByRole('menuitem', { name: 'Reset to the original text' });
    while (!(await hasFocus(reset))) await keys('ArrowDown');
    await keys('Enter');
    await expect.poll(() => result('72-chosen'), PATIENT).toBe(before);
    await back('Change the code');
  });

  test('6: the session is reviewed again', async () => {
    const cell = await follow('Review a session', '100-session');
    await says('105-review', 'Too hard: above the second threshold');
    await tabTo(page, cell.locator('[role=gridcell][data-active]'));
    await keys('Home', 'ArrowRight', 'ArrowRight', 'ArrowRight');
    for (let rep = 0; rep < 4; rep++) {
      await page.keyboard.type('2.5');
      await keys('Enter');
    }
    await says('105-review', /At or just under the second threshold.*Intensity and lactate disagree/s);
    await back('Review a session');
  });

  test('7: a test of the reader’s own is pasted', async () => {
    await page.evaluate((text) => navigator.clipboard.writeText(text), OWN);
    const cell = await follow('Put your own test in', '20-stages');
    await tabTo(page, cell.locator('[role=gridcell][data-active]'));
    await keys('ControlOrMeta+V');
    await says('00-welcome', 'These readings were entered');
    await says('124-models', 'left out');
    await back('Put your own test in');
  });

  test('8: the share page holds the terms, and nothing that is only to be tried', async () => {
    await backToContents(page, cellOf(frame, TOUR));
    await pressInTitleBar(page, 'Share page');
    const save = () => press(page, page.getByRole('button', { name: 'Save share page' }));
    const html = readFileSync(await savedPage(page, save), 'utf8');
    const results = html.replace(/<pre class="code">[\s\S]*?<\/pre>/g, '');
    expect(results).not.toMatch(/Each step leads to its place|New here|popover|<button/);
    expect(results).toMatch(/<strong>First threshold \(LT1\):<\/strong> The intensity above which/);
    expect(results).toContain('Each ridge shows where');
    const { document } = await readSharePage(html);
    expect(document.cells.map(({ name }) => name)).toContain(`${TOUR}.ts`);
  });

  test('nothing complained, and nothing is wider than the page', async () => {
    const wider = await frame.evaluate('document.documentElement.scrollWidth - innerWidth');
    expect(wider).toBeLessThanOrEqual(0);
    expect(watched.complaints).toEqual([]);
  });

  test('axe-core finds no barrier in list, explanations and terms', async () => {
    const opened = await open(width, theme);
    const cells = [
      '02-new-here',
      '10-athlete',
      '20-stages',
      '60-meter',
      '64-switches',
      '70-choice',
      TOUR,
      '160-terms',
    ];
    for (const cell of cells) await cellOf(opened.frame, cell).scrollIntoViewIfNeeded();
    await cellOf(opened.frame, '160-terms').locator('summary').click();
    const about = cellOf(opened.frame, '60-meter').getByRole('button', { name: /^About: / });
    expect(await about.count()).toBe(5);
    expect(await barriersIn(opened.frame, opened.page, cells)).toEqual([]);
    await opened.page.context().close();
  });
});
