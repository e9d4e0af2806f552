import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import {
  openStage,
  pressBar,
  runCells,
  type Stage,
  textOf,
  typeInto,
  untilStatus,
  workbookFrame,
} from './helpers.ts';

const CELLS = [
  { name: 'first.ts', text: "export const power = 250;\nexport default 'first cell';\n" },
  { name: 'second.ts', text: "import { power } from './first.ts';\nfor (;;) power;\n" },
];

describe('a cell that never ends', () => {
  let stage: Stage;
  let page: Page;
  beforeAll(async () => {
    stage = await openStage();
  });
  afterAll(() => stage.close());
  beforeEach(async () => {
    const context = await stage.context();
    context.setDefaultTimeout(60_000); // a loop keeps one of the machine's cores
    page = await context.newPage();
    await runCells(page, stage.served.url, CELLS);
    await untilStatus(page, 'Not answering');
  });

  test('leaves the host alive, is stopped, mended without running, and runs', async () => {
    await page.getByLabel('Title of the workbook').fill('Renamed while it hangs');
    await page.keyboard.press('Tab');
    await pressBar(page, 'Stop');
    await untilStatus(page, 'Stopped');
    expect(await page.locator('main > iframe').count()).toBe(0);

    await pressBar(page, 'Open without running');
    const frame = await workbookFrame(page);
    await frame.waitForSelector('.cm-content');
    expect(await textOf(frame, 'second.ts')).toBe(CELLS[1]!.text);
    await typeInto(
      page,
      frame,
      'second.ts',
      "import { power } from './first.ts';\nexport default [power, 'W'].join(' ');\n",
    );
    await pressBar(page, 'Run');
    await frame.locator('hour-cell[data-cell="second.ts"] .result', { hasText: '250 W' }).waitFor();
    await untilStatus(page, 'Up to date');
    expect(await page.getByLabel('Title of the workbook').inputValue()).toBe('Renamed while it hangs');

    await page.reload();
    await untilStatus(page, 'Up to date');
  });

  /** Closes the tab, or ends it as a browser does that gives the frame no process of its own; then opens it again. */
  async function again(end: () => Promise<unknown>): Promise<Page> {
    const address = page.url();
    await end();
    const next = await page.context().newPage();
    await next.goto(address);
    return next;
  }

  test.each([
    ['closed', () => page.close()],
    ['killed', killed],
  ])('is still there and does not run unasked after its tab was %s', async (_, end) => {
    const next = await again(end);
    await next.locator('.bar', { hasText: 'a run had not ended' }).waitFor();
    await untilStatus(next, 'Not running');
    const frame = await workbookFrame(next);
    await frame.waitForSelector('.cm-content');
    expect(await textOf(frame, 'second.ts')).toBe(CELLS[1]!.text);

    await pressBar(next, 'Run');
    await untilStatus(next, 'Not answering');
    await pressBar(next, 'Stop');
    await untilStatus(next, 'Stopped');
    await next.reload();
    await untilStatus(next, 'Not running');
  });

  test('runs at once where its tab was killed after the run', async () => {
    await pressBar(page, 'Stop');
    await pressBar(page, 'Open without running');
    await typeInto(page, await workbookFrame(page), 'second.ts', "export default 'ended';\n");
    await pressBar(page, 'Run');
    await untilStatus(page, 'Up to date');
    await untilStatus(await again(killed), 'Up to date');
  });

  /** Nothing in the page gets to say goodbye. */
  async function killed(): Promise<void> {
    const tools = await page.context().newCDPSession(page);
    const crashed = page.waitForEvent('crash');
    void tools.send('Page.crash').catch(() => {});
    await crashed;
  }
});

/** Ways of not ending, each in its own part of the browser: code, jobs, stack, pattern matcher, memory. */
const ENDLESS: Record<string, string> = {
  loop: 'for (;;);',
  'loop that listens for the end of its page':
    "for (const kind of ['visibilitychange', 'pagehide', 'unload', 'beforeunload']) {\n" +
    '  for (const owner of [window, document]) try { owner.addEventListener(kind, () => {}); } catch {}\n' +
    '  try { Object.assign(window, { ["on" + kind]: () => {} }); } catch {}\n}\nfor (;;);',
  'chain of promises': 'const next = (): unknown => Promise.resolve().then(next);\nawait next();',
  recursion:
    'const grow = (n: number): number => {\n  try { return grow(n + 1); } catch { return grow(0); }\n};\ngrow(0);',
  pattern: "/^(a+)+$/.test('a'.repeat(60) + 'b');",
  'search in a giant array': 'Array.prototype.indexOf.call({ length: 2 ** 53 - 1 }, 1);',
  'comparison that calls itself':
    'const it = { valueOf: (): number => { for (;;); } };\n[1, 2].sort(() => Number(it));',
};

/**
 * Longest that the host may take to answer, ms. An idle one takes some 0.1 s; a loaded machine with two cores, one
 * of them kept by the loop, may need much more, and a host that shares its thread with the loop would never answer.
 */
const ANSWER = 5000;

describe.each(Object.entries(ENDLESS))('a cell held up by a %s', (_, code) => {
  test('leaves the host answering; Stop ends it, and its text opens without running', async () => {
    const stage = await openStage();
    try {
      const page = await (await stage.context()).newPage();
      page.setDefaultTimeout(60_000);
      await runCells(page, stage.served.url, [{ name: 'hangs.ts', text: code }]);
      await untilStatus(page, 'Not answering');
      await page.getByRole('button', { name: 'Workbooks' }).click({ timeout: ANSWER });
      await page.getByRole('button', { name: 'Close' }).first().click({ timeout: ANSWER });
      await pressBar(page, 'Stop', { timeout: ANSWER });
      await page.locator('main > iframe').waitFor({ state: 'detached', timeout: ANSWER });
      await pressBar(page, 'Open without running');
      const frame = await workbookFrame(page);
      await frame.waitForSelector('.cm-content');
      expect(await textOf(frame, 'hangs.ts')).toBe(code);
    } finally {
      await stage.close();
    }
  });
});

test('a cell that eats all memory ends its frame at most; the host and the text remain', async () => {
  const stage = await openStage();
  try {
    const page = await (await stage.context()).newPage();
    const bomb = 'const kept: number[][] = [];\nfor (;;) kept.push(new Array(1e6).fill(0.5));';
    await runCells(page, stage.served.url, [{ name: 'bomb.ts', text: bomb }]);
    await untilStatus(page, 'Not answering');
    await pressBar(page, 'Stop', { timeout: ANSWER });
    await pressBar(page, 'Open without running');
    const frame = await workbookFrame(page);
    await frame.waitForSelector('.cm-content');
    expect(await textOf(frame, 'bomb.ts')).toBe(bomb);
  } finally {
    await stage.close();
  }
});

test('an edit that hangs is stored before it runs', async () => {
  const stage = await openStage();
  try {
    const page = await (await stage.context()).newPage();
    await runCells(page, stage.served.url, [CELLS[0]!]);
    const frame = await workbookFrame(page);
    await frame.waitForSelector('.cm-content');
    await typeInto(page, frame, 'first.ts', 'for (;;); // typed');
    await untilStatus(page, 'Not answering');
    await page.reload();
    await untilStatus(page, 'Not running');
    const reopened = await workbookFrame(page);
    await reopened.waitForSelector('.cm-content');
    expect(await textOf(reopened, 'first.ts')).toBe('for (;;); // typed');
  } finally {
    await stage.close();
  }
});
