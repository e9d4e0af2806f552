import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { openStage, type Stage, typeInto, untilStatus, untilTextKept, workbookFrame } from './helpers.ts';
import { idOf, keep, keptWorkbook, readKept } from './kept.ts';

const ONE = { name: 'one.ts', text: "export default 'as kept';\n" };

let stage: Stage;
beforeAll(async () => {
  stage = await openStage();
});
afterAll(() => stage.close());

async function button(page: Page, name: string): Promise<void> {
  await page.locator('hour-workbooks-dialog').getByRole('button', { name, exact: true }).click();
}

async function showLibrary(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Workbooks', exact: true }).click();
  await page.locator('hour-workbooks-dialog dialog[open]').waitFor();
}

/** What the list of earlier versions says of each. */
async function versionsOf(page: Page, title: string): Promise<string[]> {
  await showLibrary(page);
  await button(page, `More for ${title}`);
  await button(page, `Earlier versions of ${title}`);
  const versions = page.locator('hour-workbooks-dialog .versions li > span');
  await versions.first().waitFor();
  return versions.allTextContents();
}

test('earlier versions go with all workbooks to another browser, once, and ask before they run', async () => {
  const [here, there] = [await stage.context(), await stage.context()];
  let page = await here.newPage();
  await keep(page, stage.served.url, [keptWorkbook(1, 'First', [ONE])]);
  await page.goto(`${stage.served.url}#${idOf(1)}`);
  await untilStatus(page, 'Up to date');
  const frame = await workbookFrame(page);
  await frame.waitForSelector('.cm-content');
  await typeInto(page, frame, 'one.ts', "export default 'changed since';");
  await untilTextKept(page, 'changed since');
  const listed = await versionsOf(page, 'First');
  expect(listed).toHaveLength(1);
  await button(page, 'Back to all workbooks');
  const download = page.waitForEvent('download');
  await button(page, 'Save all workbooks to one file');
  const buffer = readFileSync(await (await download).path());
  await here.close();

  page = await there.newPage();
  await page.goto(stage.served.url);
  await untilStatus(page, 'Up to date');
  const file = { name: 'all.ndjson', mimeType: 'application/x-ndjson', buffer };
  for (const said of ['1 added, with 1 earlier version', '0 added, 1 here already']) {
    await showLibrary(page);
    await page.setInputFiles('hour-workbooks-dialog input[type=file]', file);
    await page.locator('.bar', { hasText: `all.ndjson: ${said}` }).waitFor();
    expect(await versionsOf(page, 'First')).toEqual(listed);
    await page.keyboard.press('Escape');
  }

  await page.evaluate((id) => {
    location.hash = id;
  }, idOf(1));
  await page.getByRole('button', { name: 'Run', exact: true }).click();
  await untilStatus(page, 'Up to date');
  await versionsOf(page, 'First');
  await page.locator('hour-workbooks-dialog .versions').getByRole('button', { name: 'Restore' }).click();
  await page.locator('.bar', { hasText: 'The workbook is as it was' }).waitFor();
  await untilStatus(page, 'Not running');
  expect((await readKept(page))[0]).toMatchObject({ mayRun: false, document: { cells: [ONE] } });
  await there.close();
});
