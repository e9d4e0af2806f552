import { existsSync, mkdtempSync, renameSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import {
  type Browser,
  type BrowserContext,
  type BrowserContextOptions,
  chromium,
  type Frame,
  type Page,
} from 'playwright-core';
import { expect } from 'vitest';
import { BROWSER_ARGS, findBrowser } from '../../src/tools/browser.mjs';
import { type Served, serve } from '../../src/tools/serve.ts';
import type { CellText, WorkbookDocument } from '../../src/workbook/document.ts';
import { readKept } from './kept.ts';

const dist = path.resolve(import.meta.dirname, '../../dist');

/** The built Hourline on a server of its own, and a browser. `npm test` builds first. */
export interface Stage {
  served: Served;
  browser: Browser;
  /** A fresh browser profile: nothing stored. 1440 × 900 unless the options say otherwise. */
  context(options?: BrowserContextOptions): Promise<BrowserContext>;
  close(): Promise<void>;
}

export async function openStage(folder = dist): Promise<Stage> {
  if (!existsSync(path.join(folder, 'index.html'))) throw new Error('dist/ is missing: run npm run build');
  const served = await serve(folder);
  const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: BROWSER_ARGS });
  return {
    served,
    browser,
    context: (options) => browser.newContext({ viewport: { width: 1440, height: 900 }, ...options }),
    close: async () => {
      await browser.close();
      await served.close();
    },
  };
}

/** What a page says and asks for: console messages of concern, uncaught errors, and addresses requested. */
export interface Watched {
  complaints: string[];
  requests: string[];
}

export function watch(page: Page): Watched {
  const watched: Watched = { complaints: [], requests: [] };
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) watched.complaints.push(message.text());
  });
  page.on('pageerror', (error) => watched.complaints.push(String(error)));
  page.on('request', (request) => watched.requests.push(request.url()));
  return watched;
}

/** The frame with the workbook; waits until it has cells. */
export async function workbookFrame(page: Page): Promise<Frame> {
  await page.frameLocator('main > iframe').locator('hour-cell').first().waitFor();
  const element = await page.waitForSelector('main > iframe');
  return (await element.contentFrame())!;
}

/** Waits for a word in the title bar's status, e.g. “Up to date” or “Not running”. */
export async function untilStatus(page: Page, part: string): Promise<void> {
  await page.locator('hour-title-bar .status', { hasText: part }).waitFor();
}

/** Waits until a workbook is kept in the browser of which `holds` is true. */
export async function untilKept(page: Page, holds: (document: WorkbookDocument) => boolean): Promise<void> {
  const isKept = async () => (await readKept(page)).some(({ document }) => holds(document));
  await expect.poll(isKept, { timeout: 10_000 }).toBe(true);
}

/** Waits until a workbook with `part` in the code of a cell is kept in the browser. */
export const untilTextKept = (page: Page, part: string): Promise<void> =>
  untilKept(page, ({ cells }) => cells.some(({ text }) => text.includes(part)));

/** A cell in the frame, by its name without .ts. */
export const cellOf = (frame: Frame, name: string) => frame.locator(`hour-cell[data-cell="${name}.ts"]`);

/** The sample, or what is at another address, in a fresh profile; run and watched from the beginning. */
export async function openSample(
  stage: Stage,
  { address = '', ...options }: BrowserContextOptions & { address?: string } = {},
) {
  const context = await stage.context(options);
  const page = await context.newPage();
  const watched = watch(page);
  await page.goto(stage.served.url + address);
  const frame = await workbookFrame(page);
  await untilStatus(page, 'Up to date');
  return { context, page, frame, watched };
}

/** What is saved when something is done, as a page that a browser opens from disk: it tells the type of a file by its name. */
export async function savedPage(page: Page, save: () => Promise<void>): Promise<string> {
  const download = page.waitForEvent('download');
  await save();
  const saved = await (await download).path();
  renameSync(saved, `${saved}.html`);
  return `${saved}.html`;
}

/** A workbook file on disk, as “Save this workbook to a file” writes it. */
export function workbookFile(cells: CellText[], title = 'Test workbook'): string {
  const file = path.join(mkdtempSync(path.join(tmpdir(), 'hourline-')), 'workbook.json');
  const changed = '2026-01-01T00:00:00.000Z';
  const workbook = {
    format: 'hourline-workbook-1',
    id: 'x',
    title,
    shipped: null,
    cells,
    settings: {},
    changed,
  };
  writeFileSync(file, JSON.stringify(workbook));
  return file;
}

/** Opens a file through the Workbooks dialog; it is shown but not run. */
export async function openFile(page: Page, file: string): Promise<void> {
  await page.getByRole('button', { name: 'Workbooks' }).click();
  await page.locator('hour-workbooks-dialog dialog[open]').waitFor();
  await page.setInputFiles('hour-workbooks-dialog input[type=file]', file);
  await untilStatus(page, 'Not running');
}

/** Opens Hourline on a workbook of the given cells and lets it run. */
export async function runCells(page: Page, url: string, cells: CellText[]): Promise<void> {
  await page.goto(url);
  await openFile(page, workbookFile(cells));
  await pressBar(page, 'Run');
}

/** Replaces a cell's text as a reader would, in its editor. */
export async function typeInto(page: Page, frame: Frame, cell: string, text: string): Promise<void> {
  const editor = frame.locator(`hour-cell[data-cell="${cell}"] .cm-content`);
  await editor.click();
  await page.keyboard.press('ControlOrMeta+A');
  await page.keyboard.insertText(text);
}

/** The text of a cell as its editor shows it. */
export async function textOf(frame: Frame, cell: string): Promise<string> {
  const lines = await frame.locator(`hour-cell[data-cell="${cell}"] .cm-line`).allTextContents();
  return lines.join('\n');
}

/** A button in the bars beneath the title bar. */
export const barButton = (page: Page, name: string) =>
  page.locator('.bar').getByRole('button', { name, exact: true });

/**
 * Presses such a button, by keyboard: a bar that has just come stands where the frame was a moment ago, and under load the
 * browser still sends a click at that place to the frame, whose process is another one.
 */
export const pressBar = (page: Page, name: string, options: { timeout?: number } = {}): Promise<void> =>
  barButton(page, name).press('Enter', options);
