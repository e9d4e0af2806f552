import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import path from 'node:path';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { fingerprintOf, readSharePage } from '../../src/host/share/embedded.ts';
import { highlight } from '../../src/host/share/highlight.ts';
import { sharePage } from '../../src/host/share/sharePage.ts';
import { provideDocument } from '../../src/tools/share/document.ts';
import { whatIsNotInert } from './attacks/inert.ts';
import { HARMLESS_AS_THEY_ARE, RESULT_ATTACKS, resultAttack } from './attacks/results.ts';
import { openStage, runCells, type Stage, savedPage, untilStatus } from './helpers.ts';

/** Time for what was begun to arrive. */
const SETTLE = 1000;
const RAW_SETTLE = 40;
const POLICY = /<meta http-equiv="Content-Security-Policy"[^>]*>/;

/** The attacker's server: counts what is asked for, and shows an attack as it is under /page. */
async function listen() {
  const hits = new Set<string>();
  const server = createServer((request, response) => {
    const asked = request.url!.slice(1);
    const name = RESULT_ATTACKS.find((one) => asked === `page/${one}`);
    if (!name) hits.add(asked.replace(/[/?].*/, ''));
    response.writeHead(200, { 'content-type': name ? 'text/html; charset=utf-8' : 'image/png' });
    response.end(name ? pageAround(resultAttack(name, address)) : '');
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
  return {
    address,
    hits,
    close: () => {
      server.closeAllConnections();
      server.close();
    },
  };
}

const pageAround = (result: string) =>
  `<!doctype html><meta charset="utf-8"><title>x</title><main><section aria-label="raw"><div class="result">${result}</div></section></main>`;

/** Everything a reader can do to a page, done to every part of it. Runs in the page. */
function touchEverything(): void {
  for (const element of document.querySelectorAll<HTMLElement>('*')) {
    for (const kind of ['pointerover', 'mouseover', 'wheel']) element.dispatchEvent(new MouseEvent(kind));
    if (element.matches('[tabindex], [contenteditable], input, button, a, textarea')) element.focus();
    element.dispatchEvent(new MouseEvent('click', { cancelable: true }));
  }
}

/** What an opened page did. */
interface Deeds {
  ran: Set<string>;
  asked: Set<string>;
}

/** A browser that notes what pages run, by their call of `ran`, and what they ask for. */
async function observed(stage: Stage): Promise<{ context: BrowserContext; page: Page; deeds: Deeds }> {
  const context = await stage.browser.newContext();
  const deeds: Deeds = { ran: new Set(), asked: new Set() };
  await context.exposeBinding('ran', (_, name) => void deeds.ran.add(String(name)));
  const page = await context.newPage();
  context.on('page', (popup) => void popup.close());
  context.on('request', (request) => deeds.asked.add(request.url()));
  return { context, page, deeds };
}

async function openAndTouch(page: Page, address: string, settle = SETTLE): Promise<void> {
  await page.goto(address);
  await page.waitForTimeout(settle);
  await page.evaluate(touchEverything).catch(() => {}); // the page may have left
  await page.waitForTimeout(settle);
}

let stage: Stage;
let attacker: Awaited<ReturnType<typeof listen>>;
beforeAll(async () => {
  stage = await openStage();
  attacker = await listen();
});
afterAll(async () => {
  attacker?.close();
  await stage?.close();
});

/** Two attacks a cell: one in what it shows, one in its part of the short answer. */
const ATTACKED = RESULT_ATTACKS.flatMap((shown, i) =>
  i % 2 === 0 ? [{ name: `${shown}.ts`, shown, short: RESULT_ATTACKS[i + 1] ?? shown }] : [],
);
const HONEST = ATTACKED.map(({ name }) => ({ name, text: `export default '${name}';\n` }));

/** Repetitions by their number: an editor takes its time over a line of a million letters. */
const packed = (text: string): string =>
  text.replace(/(.{1,20}?)\1{99,}/g, (all, part: string) => `{{${all.length / part.length} ${part}}}`);

/** As Hourline saves it, from a frame that sends attacks. */
async function savedInBrowser(): Promise<string> {
  const markup = ATTACKED.map(({ name, shown, short }) => ({
    name,
    html: resultAttack(shown, attacker.address),
    inShort: resultAttack(short, attacker.address),
  }));
  const hostile = `
    const packed = ${JSON.stringify(packed(JSON.stringify(markup)))};
    const markup = JSON.parse(packed.replace(/{{(\\d+) (.*?)}}/g, (_, count, part) => part.repeat(count)));
    const { postMessage } = MessagePort.prototype;
    MessagePort.prototype.postMessage = function (message) {
      if (message.kind === 'snapshot')
        for (const attack of markup) Object.assign(message.cells.find((cell) => cell.name === attack.name), attack);
      postMessage.call(this, message);
    };
    export default 'honest';`;
  const context = await stage.context();
  const page = await context.newPage();
  await runCells(page, stage.served.url, [{ name: 'hostile.ts', text: hostile }, ...HONEST]);
  await untilStatus(page, 'Up to date');
  await page.getByRole('button', { name: 'Share page' }).click();
  const kept = await savedPage(page, () => page.getByRole('button', { name: 'Save share page' }).click());
  await context.close();
  return kept;
}

/** As the share command makes it, whose document is not a browser's. */
async function madeInNode(): Promise<string> {
  provideDocument();
  const { sanitise } = await import('../../src/host/share/sanitise.ts');
  const sanitised = (name: string) => {
    const markup = resultAttack(name, attacker.address);
    if (!REFUSED_IN_NODE.test(name)) return sanitise(markup);
    expect(() => sanitise(markup), name).toThrow('refusing to sanitize');
    return '';
  };
  const results = ATTACKED.map(({ name, shown, short }) => ({
    name,
    html: sanitised(shown),
    inShort: sanitised(short),
  }));
  const workbook = {
    format: 'hourline-workbook-1',
    id: 'x',
    title: 'Attacked',
    shipped: null,
    cells: HONEST,
    settings: {},
    changed: '2026-01-01T00:00:00.000Z',
  } as const;
  const html = sharePage({
    workbook: { ...workbook },
    results,
    version: '1',
    made: null,
    fingerprint: await fingerprintOf(workbook),
    cautions: [],
    cautionSources: '',
    styles: '',
    highlight,
  });
  const file = path.join(mkdtempSync(path.join(tmpdir(), 'hourline-')), 'made.html');
  writeFileSync(file, html);
  return file;
}

/** Ten thousand elements in each other, where no parser flattens them: no page is made of that. */
const REFUSED_IN_NODE = /^very-deep$/;

/** The same page with nothing to hold back what got through. */
function withoutPolicy(file: string): string {
  const html = readFileSync(file, 'utf8');
  expect(html).toMatch(POLICY);
  const open = file.replace('.html', '-open.html');
  writeFileSync(open, html.replace(POLICY, ''));
  return open;
}

describe.each([
  ['saved in the browser', savedInBrowser, ['hostile.ts']],
  ['made by the share command', madeInNode, []],
])(`the share page of ${RESULT_ATTACKS.length} hostile results, %s,`, (_, make, others) => {
  let file: string;
  beforeAll(async () => {
    file = await make();
  });

  test.each([
    ['with its policy', (file: string) => file],
    ['without its policy', withoutPolicy],
  ])('%s runs nothing and asks for nothing', async (_, kept) => {
    const { context, page, deeds } = await observed(stage);
    const complaints: string[] = [];
    page.on('console', (message) => complaints.push(message.text()));
    const address = `file://${kept(file)}`;
    await openAndTouch(page, address);
    expect([...deeds.ran]).toEqual([]);
    expect([...deeds.asked]).toEqual([address]);
    expect([...attacker.hits]).toEqual([]);
    // A policy that had to step in would say so.
    expect(complaints).toEqual([]);
    expect(page.url()).toBe(address);
    await context.close();
  });

  test('holds nothing but what shows and does nothing, each result in its place', async () => {
    const { context, page } = await observed(stage);
    await page.goto(`file://${file}`);
    expect(await page.evaluate(whatIsNotInert)).toEqual([]);
    const sections = await page
      .locator('main > section.cell')
      .evaluateAll((all) => all.map((one) => one.getAttribute('aria-label')));
    expect(sections).toEqual([...others, ...HONEST.map(({ name }) => name)]);
    // Its code stands beside each result, so none has swallowed what follows it.
    expect(await page.locator('main > section.cell > .result ~ details > pre > code').count()).toBe(
      sections.length,
    );
    expect(await page.locator('[id="cautions-title"]').count()).toBe(1);
    await context.close();
  });

  test('is the workbook again that it was made of', async () => {
    const { document, altered } = await readSharePage(readFileSync(file, 'utf8'));
    expect(altered).toBe(false);
    expect(document.cells.slice(others.length)).toEqual(HONEST);
  });
});

test('the same attacks, as they are, are caught: so would be one that gets through', async () => {
  const { context, page, deeds } = await observed(stage);
  const acted: string[] = [];
  const inert: string[] = [];
  for (const name of RESULT_ATTACKS) {
    const address = `${attacker.address}/page/${name}`;
    await page.goto(address, { waitUntil: 'domcontentloaded' }).catch(() => {}); // led away at once
    const found = await page.evaluate(whatIsNotInert).catch(() => ['led away']);
    await page.waitForTimeout(RAW_SETTLE);
    await page.evaluate(touchEverything).catch(() => {});
    await page.waitForTimeout(RAW_SETTLE);
    const did = deeds.ran.has(name) || attacker.hits.has(name);
    if (did) acted.push(name);
    else if (found.length === 0) inert.push(name);
  }
  await context.close();
  expect(acted.length).toBeGreaterThan(RESULT_ATTACKS.length * 0.75);
  expect(inert.filter((name) => !HARMLESS_AS_THEY_ARE.has(name))).toEqual([]);
});
