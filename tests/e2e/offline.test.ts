import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { type Browser, chromium, type Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { BROWSER_ARGS, findBrowser } from '../../src/tools/browser.mjs';
import { type Served, serve } from '../../src/tools/serve.ts';
import { untilStatus, watch, workbookFrame } from './helpers.ts';

const dist = path.resolve(import.meta.dirname, '../../dist');
/** As a plain file host may serve it: not at the top of its address. */
const BENEATH = 'team/hourline';

/** Waits until the worker that serves this address keeps a complete version whose name ends so. */
const untilKept = (page: Page, name: string) =>
  expect
    .poll(
      () =>
        page.evaluate(async () => {
          const kept = await navigator.serviceWorker.getRegistration();
          const waits = !kept || kept.installing || kept.waiting || kept.active?.state !== 'activated';
          return waits ? '' : (await caches.keys()).at(-1);
        }),
      { timeout: 60_000 },
    )
    .toMatch(new RegExp(`${name}$`));

/** Makes the copy a later version: its page, and so the version of the whole, differs. */
function newVersion(folder: string): void {
  const change = (file: string, from: string | RegExp, to: string) => {
    const text = readFileSync(path.join(folder, file), 'utf8');
    expect(text).toMatch(from);
    writeFileSync(path.join(folder, file), text.replace(from, to));
  };
  change('index.html', '<title>', '<title>Later: ');
  const page = readFileSync(path.join(folder, 'index.html'));
  const hash = createHash('sha256').update(page).digest('hex');
  change('worker.js', /page:[`"'][\da-f]{64}[`"']/, `page:"${hash}"`);
  change('worker.js', /version:[`"'][\da-f]{10}[`"']/, 'version:"later"');
}

describe('from a plain file host', () => {
  let browser: Browser;
  let root: string;
  let folder: string;
  let served: Served;
  let page: Page;
  let address: string;

  beforeAll(async () => {
    browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: BROWSER_ARGS });
  });
  afterAll(() => browser.close());
  beforeEach(async () => {
    root = mkdtempSync(path.join(tmpdir(), 'hourline-host-'));
    folder = path.join(root, BENEATH);
    cpSync(dist, folder, { recursive: true });
    served = await serve(root);
    address = `${served.url}${BENEATH}/`;
    page = await (await browser.newContext()).newPage();
  });
  afterEach(async () => {
    await page.context().close();
    await served.close();
    rmSync(root, { recursive: true });
  });

  async function visit(): Promise<void> {
    await page.goto(address);
    await untilStatus(page, 'Up to date');
    await untilKept(page, ' [\\da-f]{10}');
  }

  test('it works beneath a path, asks for nothing else, and goes on without the host after one visit', async () => {
    const watched = watch(page);
    await visit();
    expect(watched.requests.filter((request) => !request.startsWith(address))).toEqual([]);
    await served.close();
    await page.reload();
    await untilStatus(page, 'Up to date');
    const frame = await workbookFrame(page);
    await frame.locator('.figure svg').first().waitFor();
    await frame.waitForSelector('.cm-content'); // the editor comes late
    await page.getByRole('button', { name: 'Workbooks' }).click(); // and so does the library
    await page.locator('hour-workbooks-dialog dialog[open]').waitFor();
    expect(watched.complaints).toEqual([]);
  });

  test('a later version takes over whole, at the next load, while an open page keeps its own files', async () => {
    await visit();
    const old = readdirSync(folder).find((file) => file.startsWith('d3-array.'))!;
    newVersion(folder);
    rmSync(path.join(folder, old)); // gone from the host, as after an upload
    const worker = readFileSync(path.join(folder, 'worker.js'), 'utf8');
    writeFileSync(path.join(folder, 'worker.js'), worker.replace(new RegExp(`,?[\`"']${old}[\`"']`), ''));
    await page.reload(); // still the version that is kept; the browser looks for another one behind it
    expect(await page.title()).not.toContain('Later');
    await untilKept(page, ' later');
    const kept = await page.evaluate((file) => fetch(file).then((response) => response.status), old);
    expect(kept).toBe(200);
    await page.reload();
    expect(await page.title()).toContain('Later');
    await untilStatus(page, 'Up to date');
  });

  test('half an upload is no version: the one that is kept stays', async () => {
    await visit();
    newVersion(folder);
    const text = readFileSync(path.join(folder, 'index.html'), 'utf8');
    writeFileSync(path.join(folder, 'index.html'), text.replace('Later: ', 'Half: '));
    const states = await page.evaluate(async () => {
      const kept = (await navigator.serviceWorker.getRegistration())!;
      const found = new Promise<string>((resolve) => {
        kept.addEventListener('updatefound', () => {
          const { installing } = kept;
          installing!.addEventListener('statechange', () => resolve(installing!.state));
        });
      });
      await kept.update().catch(() => {});
      return found;
    });
    expect(states).toBe('redundant');
    await page.reload();
    expect(await page.title()).not.toMatch(/Half|Later/);
    await untilStatus(page, 'Up to date');
  });
});
