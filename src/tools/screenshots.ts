// The pictures of the README, taken from the built workbook on its invented data: `npm run build`, then
// `npx tsx src/tools/screenshots.ts`.
import { fileURLToPath } from 'node:url';
import { chromium, type Frame, type Page } from 'playwright-core';
import { BROWSER_ARGS, findBrowser } from './browser.mjs';
import { serve } from './serve.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** What each picture shows: the cell scrolled to the top of the window. */
const PICTURES = [
  { name: 'thresholds', cell: '50-thresholds.ts', width: 1440, theme: 'light' },
  { name: 'sensitivity', cell: '65-sensitivity.ts', width: 1440, theme: 'light' },
  { name: 'bands', cell: '80-bands.ts', width: 1440, theme: 'dark' },
  { name: 'phone', cell: '90-summary.ts', width: 390, theme: 'light' },
] as const;

async function workbook(page: Page, url: string): Promise<Frame> {
  await page.goto(url);
  const frame = (await (await page.waitForSelector('main > iframe')).contentFrame())!;
  await frame.waitForSelector('hour-cell');
  await page.locator('hour-title-bar .status', { hasText: 'Up to date' }).waitFor();
  return frame;
}

const served = await serve(`${root}dist`);
const browser = await chromium.launch({ executablePath: findBrowser() ?? undefined, args: BROWSER_ARGS });
for (const { name, cell, width, theme } of PICTURES) {
  const context = await browser.newContext({ viewport: { width, height: 900 }, colorScheme: theme });
  const page = await context.newPage();
  const frame = await workbook(page, served.url);
  await frame.locator(`hour-cell[data-cell="${cell}"]`).evaluate((element) => element.scrollIntoView());
  await page.waitForTimeout(1500); // editors near the window load their code view
  await page.screenshot({ path: `${root}.readme/${name}.png` });
  await context.close();
}
await browser.close();
await served.close();
