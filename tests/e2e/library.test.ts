import { readFileSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import {
  openStage,
  pressBar,
  type Stage,
  textOf,
  typeInto,
  untilStatus,
  untilTextKept,
  workbookFrame,
} from './helpers.ts';
import { idOf, type Kept, keep, keptWorkbook, readKept } from './kept.ts';

const ONE = { name: 'one.ts', text: "export default 'as kept';\n" };
const naming = (code: string) => ({
  name: 'athlete.ts',
  text: `import { athleteField } from '#hourline';\nexport const code = athleteField('${code}');\n`,
});

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

const url = () => stage.served.url;

async function openKept(records: readonly unknown[], open = idOf(1), version = 2): Promise<void> {
  await keep(page, url(), records, version);
  await page.goto(`${url()}#${open}`);
}

async function showLibrary(): Promise<void> {
  await page.getByRole('button', { name: 'Workbooks', exact: true }).click();
  await page.locator('hour-workbooks-dialog dialog[open]').waitFor();
}

const dialog = () => page.locator('hour-workbooks-dialog');
const button = (name: string) => dialog().getByRole('button', { name, exact: true });
const headings = () => dialog().locator('h3').allTextContents();

async function saved(click: () => Promise<void>): Promise<string> {
  const download = page.waitForEvent('download');
  await click();
  return readFileSync(await (await download).path(), 'utf8');
}

describe('the library', () => {
  const records = [
    keptWorkbook(1, 'Spring test', [naming('C-10')]),
    keptWorkbook(2, 'Spring test of another', [naming('C-9')]),
    keptWorkbook(3, 'Autumn test', [naming('C-10')]),
    keptWorkbook(4, 'Notes', [ONE]),
    keptWorkbook(5, 'Retest', [naming('C-9')]),
  ];

  test('by athlete, found by words, renamed by keyboard; at 390 px nothing is wider than the window', async () => {
    await page.setViewportSize({ width: 390, height: 844 });
    await openKept(records);
    await untilStatus(page, 'Up to date');
    await showLibrary();
    expect((await headings()).slice(0, 3)).toEqual(['C-9', 'C-10', 'No athlete named']);
    await dialog().getByLabel('Find by athlete or title').fill('c-10 autumn');
    expect(await dialog().locator('hour-workbook-item').count()).toBe(1);

    await button('More for Autumn test').focus();
    await page.keyboard.press('Enter');
    await page.keyboard.press('Tab');
    await page.keyboard.press('Enter'); // Rename
    await page.keyboard.insertText('Autumn test, repeated');
    await page.keyboard.press('Enter');
    await button('More for Autumn test, repeated').waitFor();
    expect((await readKept(page)).find((kept) => kept.id === idOf(3))!.document.title).toBe(
      'Autumn test, repeated',
    );
    const wide = await dialog()
      .locator('dialog')
      .evaluate((sheet) => sheet.scrollWidth - sheet.clientWidth);
    expect(wide).toBeLessThanOrEqual(0);

    // Escape ends the renaming and leaves the dialog open.
    await button('Rename Autumn test, repeated').click();
    await page.keyboard.press('Escape');
    expect(await dialog().locator('dialog[open]').count()).toBe(1);
  });

  test('all in one file; read by another browser, then again, nothing is doubled or written over', async () => {
    await openKept(records);
    await untilStatus(page, 'Up to date');
    await showLibrary();
    const text = await saved(() => button('Save all workbooks to one file').click());
    expect(text.split('\n')).toHaveLength(7); // a heading, five workbooks, the end
    const file = { name: 'all.ndjson', mimeType: 'application/x-ndjson', buffer: Buffer.from(text) };

    const other = await stage.context();
    page = await other.newPage();
    const changed = keptWorkbook(3, 'Autumn test', [{ ...ONE, text: 'export default 3;\n' }]);
    await openKept([changed], idOf(3));
    await untilStatus(page, 'Up to date');
    await showLibrary();
    await page.setInputFiles('hour-workbooks-dialog input[type=file]', file);
    await page
      .locator('.bar', { hasText: 'all.ndjson: 4 added, 1 kept beside another state of the same workbook' })
      .waitFor();
    const kept = await readKept(page);
    expect(kept).toHaveLength(6);
    expect(kept.find((one) => one.id === idOf(3))).toEqual(changed);
    expect(kept.filter((one) => one.mayRun)).toHaveLength(1); // what came from a file asks first
    await showLibrary();
    await page.setInputFiles('hour-workbooks-dialog input[type=file]', file);
    await page.locator('.bar', { hasText: 'all.ndjson: 0 added, 5 here already' }).waitFor();
    expect(await readKept(page)).toHaveLength(6);
    await other.close();
  });

  test('a deleted workbook can be put back after a restart, or removed for good', async () => {
    await openKept([keptWorkbook(1, 'First', [ONE]), keptWorkbook(2, 'Second', [ONE])]);
    await untilStatus(page, 'Up to date');
    for (const title of ['First', 'Second']) {
      await showLibrary();
      await button(`More for ${title}`).click();
      await button(`Delete ${title}`).click();
      await page.locator('.bar', { hasText: `“${title}” was deleted` }).waitFor();
    }
    await page.goto('about:blank');
    await page.goto(`${url()}#${idOf(1)}`);
    await page.locator('.bar', { hasText: 'is not kept in this browser' }).waitFor();
    await showLibrary();
    await dialog().locator('summary', { hasText: 'Deleted (2)' }).click();
    await button('Put First back').click();
    await button('More for First').waitFor();
    page.once('dialog', (asked) => asked.accept());
    await button('Remove Second for good').click();
    await expect.poll(async () => (await readKept(page)).map((kept) => kept.id)).toEqual([idOf(1)]);
  });
});

describe('earlier versions', () => {
  test('are shown without running, become a workbook of their own when changed, and are restored', async () => {
    await openKept([keptWorkbook(1, 'First', [ONE])]);
    await untilStatus(page, 'Up to date');
    let frame = await workbookFrame(page);
    await frame.waitForSelector('.cm-content');
    await typeInto(page, frame, 'one.ts', "export default 'spoilt';");
    await untilTextKept(page, 'spoilt');

    await showLibrary();
    await button('More for First').click();
    await button('Earlier versions of First').click();
    const version = dialog().locator('.versions li');
    await version.first().waitFor();
    expect(await version.count()).toBe(1);
    expect(await version.textContent()).toContain('1 cell with another text');
    await version.getByRole('button', { name: 'Look at' }).click();
    await untilStatus(page, 'Not running');
    frame = await workbookFrame(page);
    await frame.waitForSelector('.cm-content');
    expect(await textOf(frame, 'one.ts')).toBe("export default 'as kept';\n");
    expect(await readKept(page)).toHaveLength(1);

    await typeInto(page, frame, 'one.ts', "export default 'tried out';");
    await untilTextKept(page, 'tried out');
    const kept = await readKept(page);
    expect(kept).toHaveLength(2);
    expect(kept.find((one) => one.id === idOf(1))!.document.cells[0]!.text).toContain('spoilt');

    await page.goto(`${url()}#${idOf(1)}`);
    await untilStatus(page, 'Up to date');
    await showLibrary();
    await button('More for First').click();
    await button('Earlier versions of First').click();
    await version.first().getByRole('button', { name: 'Restore' }).click();
    await page.locator('.bar', { hasText: 'The workbook is as it was' }).waitFor();
    await page.frameLocator('main > iframe').locator('.result', { hasText: 'as kept' }).waitFor();
    const restored = (await readKept(page)).find((one) => one.id === idOf(1))!;
    expect(restored.document.cells).toEqual([ONE]);
    expect(restored.mayRun).toBe(true);
    await showLibrary();
    await button('More for First').click();
    await button('Earlier versions of First').click();
    await version.nth(1).waitFor();
    expect(await version.count()).toBe(2); // what it was before the change, and before it was restored
  });
});

describe('a damaged store', () => {
  const whole = keptWorkbook(2, 'Whole', [ONE]);
  const damaged = (): unknown => {
    const record: Kept = keptWorkbook(1, 'Broken', [ONE]);
    return { ...record, document: { ...record.document, cells: [ONE, { name: 'two.ts', text: 7 }] } };
  };

  test('what can be read of a workbook is shown, not run, and offered for saving; its record stays', async () => {
    await openKept([damaged(), whole]);
    await page.locator('.bar', { hasText: 'A workbook kept in this browser is damaged' }).waitFor();
    await untilStatus(page, 'Not running');
    const text = await saved(() => pressBar(page, 'Save to a file'));
    expect(JSON.parse(text).cells).toEqual([ONE]);
    await showLibrary();
    expect(await headings()).toContain('Damaged');
    const raw = await saved(() => button('Save the record to a file').click());
    expect(JSON.parse(raw)).toEqual(damaged());
    const all = await saved(() => button('Save all workbooks to one file').click());
    expect(all).toContain('Broken (what could be read)');
    expect(all).toContain('"title":"Whole"');
    expect(await readKept(page)).toEqual([damaged(), whole]);
  });

  test('a record that the browser cannot read takes no other with it', async () => {
    await page.addInitScript((id) => {
      const failing = () => {
        throw new DOMException('Failed to read large IndexedDB value', 'DataError');
      };
      const { get } = IDBObjectStore.prototype;
      IDBObjectStore.prototype.getAll = failing;
      IDBObjectStore.prototype.get = function (key) {
        return key === id ? failing() : get.call(this, key);
      };
    }, idOf(1));
    await openKept([keptWorkbook(1, 'Unreadable', [ONE]), whole]);
    await page.locator('.bar', { hasText: 'None of its cells can be read' }).waitFor();
    await showLibrary();
    await button('More for Whole').waitFor();
    expect(await headings()).toContain('Damaged');
    await dialog().locator('button.open', { hasText: 'Whole' }).click();
    await page.frameLocator('main > iframe').locator('.result', { hasText: 'as kept' }).waitFor();
  });

  test('a database of a newer Hourline is read and never changed, and everything can be saved', async () => {
    await openKept([whole], idOf(2), 99);
    const frame = await workbookFrame(page);
    await frame.waitForSelector('.cm-content');
    await typeInto(page, frame, 'one.ts', "export default 'not kept';");
    await page.locator('.bar', { hasText: 'Not saved' }).waitFor();
    await frame.locator('.result', { hasText: 'not kept' }).waitFor();
    const text = await saved(() => pressBar(page, 'Save to a file'));
    expect(JSON.parse(text).cells[0].text).toBe("export default 'not kept';");
    await showLibrary();
    await dialog().locator('.caution', { hasText: 'a newer Hourline kept them' }).waitFor();
    expect(await saved(() => button('Save all workbooks to one file').click())).toContain('as kept');
    expect(await readKept(page)).toEqual([whole]);
  });
});

test('full storage is said, the work goes on, and is kept as soon as there is room', async () => {
  const tools = await context.newCDPSession(page);
  const origin = new URL(url()).origin;
  // From the start: the browser remembers for a while how much room there was.
  await tools.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 300_000 });
  await openKept([keptWorkbook(1, 'First', [ONE])]);
  await untilStatus(page, 'Up to date');
  const frame = await workbookFrame(page);
  await frame.waitForSelector('.cm-content');
  await typeInto(page, frame, 'one.ts', `export default 'too much'; // ${'x'.repeat(400_000)}`);
  await page
    .locator('.bar', {
      hasText: 'Not saved: this browser did not store the workbook (its storage is full)',
    })
    .waitFor();
  await frame.locator('.result', { hasText: 'too much' }).waitFor();
  expect(JSON.stringify(await readKept(page))).toContain('as kept');
  expect(await saved(() => pressBar(page, 'Save to a file'))).toContain('too much');
  await tools.send('Storage.overrideQuotaForOrigin', { origin });
  await pressBar(page, 'Try again');
  await untilTextKept(page, 'too much');
  await page.locator('.bar', { hasText: 'Not saved' }).waitFor({ state: 'detached' });
});

test('a state that is too large to be kept is said to be, not called saved, and all is well once it is shorter', async () => {
  await openKept([keptWorkbook(1, 'First', [ONE])]);
  await untilStatus(page, 'Up to date');
  const frame = await workbookFrame(page);
  await frame.waitForSelector('.cm-content');
  await typeInto(page, frame, 'one.ts', `export default 'too much'; // ${'x'.repeat(1_000_000)}`);
  const bar = page.locator('.bar', { hasText: 'the workbook holds more than can be kept' });
  await bar.waitFor();
  await untilStatus(page, 'Not saved');
  expect(JSON.stringify(await readKept(page))).toContain('as kept');
  await typeInto(page, frame, 'one.ts', `export default 'shorter';`);
  await untilTextKept(page, 'shorter');
  await bar.waitFor({ state: 'detached' });
});
