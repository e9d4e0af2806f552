import { createSocket } from 'node:dgram';
import { cpSync, mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { attackCells, DISRUPTIVE, LEAVING, TOGETHER } from './attacks.ts';
import { openStage, runCells, type Stage, untilStatus, watch, workbookFrame } from './helpers.ts';

/** Time for connections that were begun to arrive. */
const SETTLE = 1500;

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

/** Runs attacks in the built Hourline of `stage`, clicks where links would be, and returns what arrived. */
async function attack(stage: Stage, names: readonly string[]): Promise<Set<string>> {
  const listener = await listen();
  const context = await stage.context();
  try {
    const page = await context.newPage();
    await runCells(page, stage.served.url, attackCells(names, listener.address));
    await page.waitForTimeout(SETTLE);
    await clickAround(page);
    await page.waitForTimeout(SETTLE);
    return new Set(listener.hits);
  } finally {
    await context.close();
    listener.close();
  }
}

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

/** A copy of dist/ without its content security policies. */
function withoutPolicies(): string {
  const dist = path.resolve(import.meta.dirname, '../../dist');
  const copy = mkdtempSync(path.join(tmpdir(), 'hourline-open-'));
  cpSync(dist, copy, { recursive: true });
  for (const file of readdirSync(copy).filter((name) => name.endsWith('.html'))) {
    const text = readFileSync(path.join(copy, file), 'utf8');
    writeFileSync(
      path.join(copy, file),
      text.replace(/<meta http-equiv="Content-Security-Policy"[^>]*>/, ''),
    );
  }
  return copy;
}

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
        postMessage.call(this, { kind: 'status', running: '<img src=x>', failed: 0, waiting: 0, cells: 1 });
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
    expect(await attack(stage, TOGETHER)).toEqual(new Set());
  });

  test.each(DISRUPTIVE)('nor does %s, which breaks the page it runs in', async (name) => {
    expect(await attack(stage, [name])).toEqual(new Set());
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

  test('the same attacks do get through without the policies, so the tests above can fail', async () => {
    const open = await openStage(withoutPolicies());
    try {
      const hits = await attack(open, TOGETHER);
      for (const name of ['fetch', 'image', 'socket', 'background', 'font']) expect(hits).toContain(name);
      for (const name of LEAVING) expect(await attack(open, [name])).toContain(name);
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
