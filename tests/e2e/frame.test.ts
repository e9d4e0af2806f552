import { createHash } from 'node:crypto';
import { createSocket } from 'node:dgram';
import { cpSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { attackCells, COUNT, DISRUPTIVE, LEAVING, TOGETHER } from './attacks/attacks.ts';
import { openStage, runCells, type Stage, untilStatus, watch, workbookFrame } from './helpers.ts';

/** Time for connections that were begun to arrive. */
const SETTLE = 1500;

/** Some that only the policies keep in; the rest is stopped by the sandbox or the lockdown as well. */
const STOPPED_BY_POLICY =
  'fetch fetch-keepalive request socket events image video background style-font font'.split(' ');
/** Some that no policy governs. (Preconnect is another; this browser, without a window, opens none in any case.) */
const STOPPED_BY_LOCKDOWN = ['peer', 'link'];

interface Listener {
  address: string;
  /** Paths asked for, and `connection` or `packet` for what came without a request. */
  hits: Set<string>;
  close(): void;
}

/** A second server, the attacker's: notes every request, every connection and every UDP packet. */
async function listen(): Promise<Listener> {
  const hits = new Set<string>();
  const server = createServer((request, response) => {
    hits.add(request.url!.slice(1));
    response.writeHead(200, { 'access-control-allow-origin': '*' }).end();
  });
  server.on('connection', () => hits.add('connection'));
  server.on('upgrade', (request, socket) => {
    hits.add(request.url!.slice(1));
    socket.destroy();
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const { port } = server.address() as AddressInfo;
  const udp = createSocket('udp4', () => hits.add('packet'));
  udp.bind(port, '127.0.0.1');
  return {
    address: `http://127.0.0.1:${port}`,
    hits,
    close: () => {
      udp.close();
      server.closeAllConnections();
      server.close();
    },
  };
}

/** Runs attacks in the built Hourline of `stage`, clicks where links would be, and gives what arrived to `judge`. */
async function attack(
  stage: Stage,
  names: readonly string[],
  judge: (hits: ReadonlySet<string>, page: Page, complaints: readonly string[]) => Promise<void>,
): Promise<void> {
  const listener = await listen();
  const context = await stage.context();
  try {
    const page = await context.newPage();
    const { complaints } = watch(page);
    await runCells(page, stage.served.url, attackCells(names, listener.address));
    await page.waitForTimeout(SETTLE);
    await clickAround(page);
    await page.waitForTimeout(SETTLE);
    await judge(listener.hits, page, complaints);
  } finally {
    await context.close();
    listener.close();
  }
}

/** Links in the frame. This browser makes no connection for them ahead of need, so that nothing of theirs would arrive. */
const links = async (page: Page) => (await workbookFrame(page)).locator('link').count();

/** Nothing arrived, and no link was left behind. */
async function nothing(hits: ReadonlySet<string>, page: Page): Promise<void> {
  expect([...hits]).toEqual([]);
  expect(await links(page)).toBe(0);
}

const untried = async (page: Page) =>
  (await workbookFrame(page)).locator('hour-cell:has(.phase.stale)').count();

/** These among others; a slow machine may need a while. */
const atLeast = (names: readonly string[]) => (hits: ReadonlySet<string>) =>
  expect.poll(() => names.filter((name) => !hits.has(name)), { timeout: 20_000 }).toEqual([]);

/** Every way of clicking that opens a link in a new tab, window or file. */
async function clickAround(page: Page): Promise<void> {
  await page.mouse.move(700, 400);
  for (const key of ['Control', 'Shift', 'Alt']) {
    await page.keyboard.down(key);
    await page.mouse.click(700, 400);
    await page.keyboard.up(key);
  }
  await page.mouse.click(700, 400, { button: 'middle' });
  await page.mouse.click(700, 400);
}

/** A copy of dist/ with its documents changed, and the policies naming the frame's script as it is then. */
function changedDist(change: (document: string) => string): string {
  const dist = path.resolve(import.meta.dirname, '../../dist');
  const copy = mkdtempSync(path.join(tmpdir(), 'hourline-open-'));
  cpSync(dist, copy, { recursive: true });
  const files = readdirSync(copy).filter((name) => name.endsWith('.html'));
  const documents = files.map((file) => readFileSync(path.join(copy, file), 'utf8'));
  const [before, after] = [documents, documents.map(change)].map(frameHash);
  for (const [i, file] of files.entries()) {
    writeFileSync(path.join(copy, file), change(documents[i]!).replaceAll(before!, after!));
  }
  return copy;
}

/** Hash of the one inline script among the documents, as a policy names it. */
function frameHash(documents: readonly string[]): string {
  const script = documents.flatMap((text) => /<script>([\s\S]+)<\/script>/.exec(text)?.[1] ?? []);
  expect(script).toHaveLength(1);
  return createHash('sha256').update(script[0]!).digest('base64');
}

const withoutPolicies = (document: string) =>
  document.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, '');

/** The frame forbids no element and removes no constructor, but for one each of no consequence. */
const withoutLockdown = (document: string) =>
  document.replace(/a area applet base embed [^'"`]*/, 'applet').replace('^(webkit)?RTC|^(', '^(');

describe('the frame', () => {
  let stage: Stage;
  beforeAll(async () => {
    stage = await openStage();
  });
  afterAll(() => stage.close());

  test('a cold open shows the sample’s results, says nothing in the console and asks only its own server', async () => {
    const page = await (await stage.context()).newPage();
    const watched = watch(page);
    await page.goto(stage.served.url);
    const frame = await workbookFrame(page);
    await untilStatus(page, 'Up to date');
    await frame.locator('.figure svg').first().waitFor();
    await frame.waitForSelector('.cm-content');
    expect(watched.complaints).toEqual([]);
    expect(watched.requests.filter((address) => !address.startsWith(stage.served.url))).toEqual([]);
  });

  test('cells reach no storage, no other window and no host', async () => {
    const page = await (await stage.context()).newPage();
    const tries: Record<string, string> = {
      storage: 'localStorage.length',
      database:
        "await new Promise((yes, no) => { const r = indexedDB.open('hourline'); r.onsuccess = yes; r.onerror = no; })",
      cookies: 'document.cookie',
      host: 'parent.document.title',
      caches: "await caches.open('x')",
    };
    const cells = Object.entries(tries).map(([name, code]) => ({
      name: `${name}.ts`,
      text: `let got = 'refused';\ntry {\n  ${code};\n  got = 'reached';\n} catch {}\nexport default got;\n`,
    }));
    await runCells(page, stage.served.url, cells);
    const frame = await workbookFrame(page);
    await untilStatus(page, 'Up to date');
    const shown = await frame.locator('hour-cell .result').allTextContents();
    expect(shown.map((text) => text.trim())).toEqual(cells.map(() => 'refused'));
  });

  test('a stolen port gets nothing but workbook messages through', async () => {
    const page = await (await stage.context()).newPage();
    const watched = watch(page);
    const steal = `
      const { postMessage } = MessagePort.prototype;
      MessagePort.prototype.postMessage = function (message) {
        for (const name of ['../index.html', 'https://x.example/', ['plot'], { plot: 'plot' }]) {
          postMessage.call(this, { kind: 'library', name });
        }
        postMessage.call(this, { kind: 'navigate', url: 'https://x.example/' });
        postMessage.call(this, { kind: 'status', started: true, running: '<img src=x>', failed: 0, waiting: 0, cells: 1 });
        postMessage.call(this, message);
      };
      export default 'stolen';`;
    await runCells(page, stage.served.url, [{ name: 'steal.ts', text: steal }]);
    await untilStatus(page, 'Up to date');
    await page.getByLabel('Title of the workbook').fill('Still alive');
    expect(watched.complaints).toEqual([]);
    expect(watched.requests.filter((address) => !address.startsWith(stage.served.url))).toEqual([]);
    expect(await page.locator('hour-title-bar img').count()).toBe(0);
  });

  test('nothing a hostile cell tries reaches another server', async () => {
    expect(COUNT).toBeGreaterThanOrEqual(120);
    await attack(stage, TOGETHER, async (hits, page) => {
      await nothing(hits, page);
      expect(await untried(page)).toBe(0);
    });
  });

  test.each(DISRUPTIVE)('nor does %s, which breaks the page it runs in', async (name) => {
    await attack(stage, [name], async (hits, page, complaints) => {
      await nothing(hits, page);
      // A page that fell over shows no longer that the cell has run, but says that it fell.
      expect((await untried(page)) === 0 || complaints.length > 0).toBe(true);
    });
  });

  test.each(LEAVING)('leading the frame away by %s sends no request and ends the workbook', async (name) => {
    const listener = await listen();
    const page = await (await stage.context()).newPage();
    await runCells(page, stage.served.url, attackCells([name], listener.address));
    await page.locator('.bar', { hasText: 'tried to go to another page' }).waitFor();
    await page.waitForTimeout(SETTLE);
    // Chromium opens a connection before it asks the policy, and sends nothing over it. No page can prevent that.
    expect([...listener.hits].filter((hit) => hit !== 'connection')).toEqual([]);
    await page.reload();
    await untilStatus(page, 'Not running');
    listener.close();
  });

  test('without the policies attacks do get through, so the tests above can fail', async () => {
    const open = await openStage(changedDist(withoutPolicies));
    try {
      // Only these: some of the others would lead the frame away before these have asked.
      await attack(open, STOPPED_BY_POLICY, atLeast(STOPPED_BY_POLICY));
      for (const name of LEAVING) await attack(open, [name], atLeast([name]));
    } finally {
      await open.close();
    }
  });

  test('without the lockdown others do', async () => {
    const open = await openStage(changedDist(withoutLockdown));
    try {
      await attack(open, STOPPED_BY_LOCKDOWN, atLeast(['packet', 'link']));
      await attack(open, ['preconnect', 'dns-prefetch'], async (_, page) =>
        expect(await links(page)).toBe(2),
      );
    } finally {
      await open.close();
    }
  });

  test('the frame’s file refuses to run as a page of its own', async () => {
    const file = readdirSync(path.resolve(import.meta.dirname, '../../dist')).find((name) =>
      /^frame\./.test(name),
    )!;
    const page = await (await stage.context()).newPage();
    await page.goto(stage.served.url + file);
    await page.getByText('open index.html instead').waitFor();
  });
});
