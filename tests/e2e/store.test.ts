import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import {
  openFile,
  openStage,
  pressBar,
  runCells,
  type Stage,
  textOf,
  typeInto,
  untilStatus,
  untilTextKept,
  workbookFile,
  workbookFrame,
} from './helpers.ts';

const CELLS = [{ name: 'one.ts', text: "export default 'as written';\n" }];

/** Opens an address and waits for the editor of the first cell. */
async function openEditor(page: Page, address: string) {
  await page.goto('about:blank'); // an address that differs only after the # would not load the page again
  await page.goto(address);
  const frame = await workbookFrame(page);
  await frame.waitForSelector('.cm-content');
  return frame;
}

const workbooks = (page: Page) => page.locator('hour-workbook-item');

describe('what is kept in the browser', () => {
  let stage: Stage;
  let context: BrowserContext;
  let page: Page;
  beforeAll(async () => {
    stage = await openStage();
  });
  afterAll(() => stage.close());
  beforeEach(async () => {
    context = await stage.context();
    page = await context.newPage();
  });
  afterEach(() => context.close());

  test('an edit survives a reload', async () => {
    await runCells(page, stage.served.url, CELLS);
    const frame = await workbookFrame(page);
    await frame.waitForSelector('.cm-content');
    await typeInto(page, frame, 'one.ts', "export default 'typed';");
    await frame.locator('.result', { hasText: 'typed' }).waitFor();
    await untilStatus(page, 'Saved');
    const again = await openEditor(page, page.url());
    await again.locator('.result', { hasText: 'typed' }).waitFor();
    expect(await textOf(again, 'one.ts')).toBe("export default 'typed';");
  });

  test('a file is shown but not run until the reader says so, after a reload too', async () => {
    await page.goto(stage.served.url);
    await openFile(page, workbookFile(CELLS));
    let frame = await workbookFrame(page);
    expect(await frame.locator('hour-cell .result', { hasText: 'as written' }).count()).toBe(0);
    await untilStatus(page, 'Saved');
    await page.reload();
    await untilStatus(page, 'Not running');
    await pressBar(page, 'Run');
    frame = await workbookFrame(page);
    await frame.locator('.result', { hasText: 'as written' }).waitFor();
  });

  test('nothing is called up to date before it has run', async () => {
    await page.goto(stage.served.url);
    await openFile(page, workbookFile(CELLS));
    await page.evaluate(() => {
      const said: string[] = [];
      const bar = document.querySelector('hour-title-bar')!;
      new MutationObserver(() => {
        const doing = bar.querySelector('.status')!.textContent!.split(' · ')[0]!.trim();
        if (doing !== said.at(-1)) said.push(doing);
      }).observe(bar, { subtree: true, childList: true, characterData: true });
      Object.assign(window, { said });
    });
    await pressBar(page, 'Run');
    const frame = await workbookFrame(page);
    await frame.locator('.result', { hasText: 'as written' }).waitFor();
    await untilStatus(page, 'Up to date');
    expect(await page.evaluate(() => (window as unknown as { said: string[] }).said)).toEqual([
      'Running',
      'Up to date',
    ]);
  });

  test('editing a file that may not run yet runs nothing', async () => {
    await page.goto(stage.served.url);
    await openFile(page, workbookFile(CELLS));
    const frame = await workbookFrame(page);
    await frame.waitForSelector('.cm-content');
    await typeInto(page, frame, 'one.ts', "document.title = 'ran'; export default 1;");
    await untilTextKept(page, "document.title = 'ran'"); // by then it would have run
    await page.reload();
    await untilStatus(page, 'Not running');
    const again = await workbookFrame(page);
    await again.waitForSelector('.cm-content');
    expect(await textOf(again, 'one.ts')).toContain("document.title = 'ran'");
    expect(await again.title()).toBe('Workbook');
  });

  test('two tabs: what the second to save has is kept as a copy at once, and overwrites nothing', async () => {
    await runCells(page, stage.served.url, CELLS);
    await untilStatus(page, 'Up to date · Saved');
    const other = await context.newPage();
    const otherFrame = await openEditor(other, page.url());
    await typeInto(other, otherFrame, 'one.ts', "export default 'from the other tab';");
    await otherFrame.locator('.result', { hasText: 'from the other tab' }).waitFor();
    await untilStatus(other, 'Saved');

    const frame = await workbookFrame(page);
    await typeInto(page, frame, 'one.ts', "export default 'from this tab';");
    await page.locator('.bar', { hasText: 'changed or deleted in another tab' }).waitFor();
    await untilTextKept(page, 'from this tab');
    await typeInto(page, frame, 'one.ts', "export default 'from this tab, too';");
    await untilTextKept(page, 'from this tab, too');
    const copy = await openEditor(page, page.url());
    expect(await textOf(copy, 'one.ts')).toBe("export default 'from this tab, too';");
    const kept = await openEditor(other, other.url());
    expect(await textOf(kept, 'one.ts')).toBe("export default 'from the other tab';");
    expect(other.url()).not.toBe(page.url());
  });

  test('a workbook that another tab still runs is run here too; one whose tabs went away before it ended is not', async () => {
    const slow = 'export const value = await new Promise(() => {});\nexport default value;\n';
    await runCells(page, stage.served.url, [...CELLS, { name: 'two.ts', text: slow }]);
    await untilStatus(page, 'Running');
    const other = await context.newPage();
    await other.goto(page.url());
    await untilStatus(other, 'Running');
    await (await workbookFrame(other)).locator('.result', { hasText: 'as written' }).waitFor();
    const address = page.url();
    for (const tab of [page, other]) {
      const tools = await context.newCDPSession(tab);
      const crashed = tab.waitForEvent('crash');
      void tools.send('Page.crash').catch(() => {}); // nobody is left to answer
      await crashed;
    }
    page = await context.newPage();
    await page.goto(address);
    await page.locator('.bar', { hasText: 'a run had not ended' }).waitFor();
  });

  test('refused storage is said, and the work goes on and can be saved to a file', async () => {
    await page.addInitScript(() => {
      IDBFactory.prototype.open = () => {
        throw new DOMException('storage is switched off', 'SecurityError');
      };
    });
    await runCells(page, stage.served.url, CELLS);
    await page.locator('.bar', { hasText: 'Not saved' }).waitFor();
    const frame = await workbookFrame(page);
    await frame.locator('.result', { hasText: 'as written' }).waitFor();
    await typeInto(page, frame, 'one.ts', "export default 'unsaved';");
    await frame.locator('.result', { hasText: 'unsaved' }).waitFor();
    const download = page.waitForEvent('download');
    await pressBar(page, 'Save to a file');
    const { readFileSync } = await import('node:fs');
    const saved = JSON.parse(readFileSync(await (await download).path(), 'utf8'));
    expect(saved.cells).toEqual([{ name: 'one.ts', text: "export default 'unsaved';" }]);
  });

  test('a workbook that is left before it is shown keeps its cells', async () => {
    await runCells(page, stage.served.url, CELLS);
    await untilStatus(page, 'Up to date · Saved');
    const own = page.url();
    const again = await context.newPage();
    await again.goto(own, { waitUntil: 'commit' });
    await again.waitForSelector('main > iframe', { state: 'attached' });
    await again.evaluate(() => {
      location.hash = 'cyclist';
    });
    await untilStatus(again, 'Up to date');
    const frame = await openEditor(again, own);
    expect(await textOf(frame, 'one.ts')).toBe(CELLS[0]!.text);
  });

  test('duplicate, delete and undo', async () => {
    await runCells(page, stage.served.url, CELLS);
    await untilStatus(page, 'Up to date · Saved');
    await page.getByRole('button', { name: 'Workbooks' }).click();
    await page.getByRole('button', { name: 'More for Test workbook', exact: true }).click();
    await page.getByRole('button', { name: 'Duplicate Test workbook', exact: true }).click();
    await workbooks(page).nth(1).waitFor();
    expect(await workbooks(page).count()).toBe(2);
    await page.getByRole('button', { name: 'Delete Test workbook', exact: true }).click();
    await page.locator('.bar', { hasText: 'was deleted' }).waitFor();
    await page.getByRole('button', { name: 'Workbooks' }).click();
    await workbooks(page).first().waitFor();
    expect(await workbooks(page).count()).toBe(1);
    await page.locator('dialog[open]').getByRole('button', { name: 'Close' }).click();
    await pressBar(page, 'Undo');
    await page.frameLocator('main > iframe').locator('.result', { hasText: 'as written' }).waitFor();
  });

  test('a damaged file is refused with a sentence and changes nothing', async () => {
    await runCells(page, stage.served.url, CELLS);
    await page.getByRole('button', { name: 'Workbooks' }).click();
    const damaged = {
      name: 'damaged.json',
      mimeType: 'application/json',
      buffer: Buffer.from('{"format": 1'),
    };
    await page.setInputFiles('hour-workbooks-dialog input[type=file]', damaged);
    await page.locator('.bar', { hasText: 'damaged.json is damaged' }).waitFor();
    expect(await page.getByLabel('Title of the workbook').inputValue()).toBe('Test workbook');
  });
});
