import type { Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import {
  barButton,
  openStage,
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
    page = await (await stage.context()).newPage();
    await runCells(page, stage.served.url, CELLS);
    await untilStatus(page, 'Not answering');
  });

  test('leaves the host alive, is stopped, mended without running, and runs', async () => {
    await page.getByLabel('Title of the workbook').fill('Renamed while it hangs');
    await page.keyboard.press('Tab');
    await barButton(page, 'Stop').click();
    await untilStatus(page, 'Stopped');
    expect(await page.locator('main > iframe').count()).toBe(0);

    await barButton(page, 'Open without running').click();
    const frame = await workbookFrame(page);
    await frame.waitForSelector('.cm-content');
    expect(await textOf(frame, 'second.ts')).toBe(CELLS[1]!.text);
    await typeInto(
      page,
      frame,
      'second.ts',
      "import { power } from './first.ts';\nexport default [power, 'W'].join(' ');\n",
    );
    await barButton(page, 'Run').click();
    await frame.locator('hour-cell[data-cell="second.ts"] .result', { hasText: '250 W' }).waitFor();
    await untilStatus(page, 'Up to date');
    expect(await page.getByLabel('Title of the workbook').inputValue()).toBe('Renamed while it hangs');
  });

  test('is still there, with the text that hangs, after closing the tab', async () => {
    const address = page.url();
    const context = page.context();
    await page.close();
    const again = await context.newPage();
    await again.goto(address);
    await untilStatus(again, 'Not answering');
    await barButton(again, 'Stop').click();
    await barButton(again, 'Open without running').click();
    const frame = await workbookFrame(again);
    await frame.waitForSelector('.cm-content');
    expect(await textOf(frame, 'second.ts')).toBe(CELLS[1]!.text);
  });
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
    await untilStatus(page, 'Not answering');
    await barButton(page, 'Stop').click();
    await barButton(page, 'Open without running').click();
    const reopened = await workbookFrame(page);
    await reopened.waitForSelector('.cm-content');
    expect(await textOf(reopened, 'first.ts')).toBe('for (;;); // typed');
  } finally {
    await stage.close();
  }
});
