import { readFileSync, statSync } from 'node:fs';
import type { BrowserContext, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test } from 'vitest';
import { readSharePage } from '../../src/host/share/embedded.ts';
import { barriers } from './barriers.ts';
import {
  cellOf,
  openFile,
  openStage,
  runCells,
  type Stage,
  savedPage,
  textOf,
  untilStatus,
  watch,
  workbookFrame,
} from './helpers.ts';

/** A coach gets the whole athlete by any mail or messenger. (Our rule.) */
const MOST_BYTES = 300_000;
/** Smallest letters in a picture on a phone, px. */
const LEAST_LETTERS = 8;

/** Saves the share page of the open workbook, without who the athlete is when there are `words`; returns the file. */
async function saveSharePage(page: Page, words: string | null = null): Promise<string> {
  await page.getByRole('button', { name: 'Share page' }).click();
  if (words !== null) {
    await page.getByLabel('Leave out who the athlete is').check();
    await page.getByLabel('Code, names and other words').fill(words);
  }
  return savedPage(page, () => page.getByRole('button', { name: 'Save share page' }).click());
}

describe('the share page', () => {
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

  /** Opens a file as its reader would: from disk, with scripts switched off. */
  async function readFromDisk(file: string) {
    const reader = await stage.browser.newContext({ javaScriptEnabled: false });
    const opened = await reader.newPage();
    const watched = watch(opened);
    await opened.goto(`file://${file}`);
    return { opened, watched, close: () => reader.close() };
  }

  test('of the sample reads without scripts, silently, and is the same workbook again', async () => {
    await page.goto(stage.served.url);
    const frame = await workbookFrame(page);
    await untilStatus(page, 'Up to date');
    // The page may still grow when all has been computed.
    await cellOf(frame, '160-terms').waitFor({ state: 'attached' });
    const names = await frame
      .locator('hour-cell')
      .evaluateAll((cells) => cells.map((cell) => cell.dataset.cell!));
    const file = await saveSharePage(page);

    const { opened, watched, close } = await readFromDisk(file);
    expect(await opened.locator('.cell > .result').count()).toBe(names.length);
    expect(await opened.locator('.result .figure svg').count()).toBeGreaterThan(3);
    await opened.getByRole('heading', { name: 'Cautions' }).waitFor();
    await opened.getByRole('heading', { name: 'Where this comes from' }).waitFor();
    expect(watched.complaints).toEqual([]);
    expect(watched.requests).toEqual([`file://${file}`]);
    await close();

    const before = await readSharePage(readFileSync(file, 'utf8'));
    expect(before.altered).toBe(false);
    await openFile(page, file);
    const reopened = await workbookFrame(page);
    await reopened.waitForSelector('.cm-content');
    expect(await textOf(reopened, names[0]!)).toBe(before.document.cells[0]!.text);
    const again = await readSharePage(readFileSync(await saveSharePage(page), 'utf8'));
    expect(again.document.cells).toEqual(before.document.cells);
    expect(again.document.cells.map((cell) => cell.name)).toEqual(names);
  });

  test('takes nothing from a hostile result but text and drawings', async () => {
    const markup = `
      <meta http-equiv="refresh" content="0;url=http://127.0.0.1:9/refresh">
      <script>document.title = 'ran'</script>
      <p id="kept" onclick="document.title = 'ran'">kept text</p>
      <a href="http://127.0.0.1:9/link">link text</a>
      <img src="http://127.0.0.1:9/image" onerror="document.title = 'ran'">
      <svg onload="document.title = 'ran'"><rect fill="url(http://127.0.0.1:9/fill)" clip-path="url(#own)"></rect>
        <use href="http://127.0.0.1:9/use"></use><foreignObject><iframe src="http://127.0.0.1:9/"></iframe></foreignObject></svg>
      <div style="background: url(http://127.0.0.1:9/style)">styled</div>
      <style>.cautions { display: none }</style>
      <form action="http://127.0.0.1:9/form"><input name="x"><button>send</button></form>`;
    const hostile = `
      const { postMessage } = MessagePort.prototype;
      MessagePort.prototype.postMessage = function (message) {
        if (message.kind === 'snapshot') message.cells[0].html = ${JSON.stringify(markup)};
        postMessage.call(this, message);
      };
      export default 'honest';`;
    await runCells(page, stage.served.url, [{ name: 'hostile.ts', text: hostile }]);
    await untilStatus(page, 'Up to date');
    const file = await saveSharePage(page);
    const result = /<div class="result">([\s\S]*?)<details class="source">/.exec(
      readFileSync(file, 'utf8'),
    )![1]!;
    expect(result).toContain('kept text');
    expect(result).toContain('clip-path="url(#own)"');
    expect(result).not.toMatch(
      /127\.0\.0\.1|<(meta|script|a|img|use|iframe|style|form|input|button)\b|\son\w+=/,
    );

    const { opened, watched, close } = await readFromDisk(file);
    await opened.waitForTimeout(500);
    expect(opened.url()).toBe(`file://${file}`);
    expect(watched.complaints).toEqual([]);
    expect(watched.requests).toEqual([`file://${file}`]);
    expect(await opened.getByRole('heading', { name: 'Cautions' }).isVisible()).toBe(true);
    await close();
  });

  test('can leave out who the athlete is', async () => {
    const cells = [
      {
        name: 'who.ts',
        text: "export const who = 'Ada Example';\nexport default who + ', 70 kg, 2026-03-04';\n",
      },
    ];
    await runCells(page, stage.served.url, cells);
    await untilStatus(page, 'Up to date');
    const html = readFileSync(await saveSharePage(page, 'Ada Example'), 'utf8');
    expect(html).not.toMatch(/\bAda\b|2026-/);
    expect(html).toContain('Athlete, 70\u202fkg, date left out');
  });

  test('of the sample without its athlete holds neither code nor day, and is a workbook all the same', async () => {
    await page.goto(stage.served.url);
    await workbookFrame(page);
    await untilStatus(page, 'Up to date');
    await page.getByRole('button', { name: 'Share page' }).click();
    await page.getByLabel('Leave out who the athlete is').check();
    // The code is proposed, so that it cannot be forgotten.
    expect(await page.getByLabel('Code, names and other words').inputValue()).toBe('C-01');
    await page.getByRole('button', { name: 'Close' }).last().click();
    const html = readFileSync(await saveSharePage(page, 'C-01'), 'utf8');
    expect(html).not.toMatch(/C-01|(19|20)\d\d-\d\d-\d\d/);
    expect((await readSharePage(html)).document.cells.length).toBeGreaterThan(30);
  });

  describe('of the sample', () => {
    let file: string;
    beforeAll(async () => {
      const saving = await stage.context();
      const sample = await saving.newPage();
      await sample.goto(stage.served.url);
      await workbookFrame(sample);
      await untilStatus(sample, 'Up to date');
      file = await saveSharePage(sample);
      await saving.close();
    });

    /** What a coach sees: the file from disk, in a browser that lets only the test look into it. */
    async function opened(width: number): Promise<Page> {
      const reader = await stage.browser.newContext({ bypassCSP: true, viewport: { width, height: 900 } });
      const shown = await reader.newPage();
      await shown.goto(`file://${file}`);
      return shown;
    }

    test('is light enough for any mail', () => {
      const { size } = statSync(file);
      const [fingerprint] = /\b[\da-f]{64}\b/.exec(readFileSync(file, 'utf8'))!;
      console.log(`The share page of the sample has ${size} bytes; fingerprint ${fingerprint}`);
      expect(size).toBeLessThanOrEqual(MOST_BYTES);
    });

    test.each([390, 1440])('fits %i px, and axe-core finds no barrier', async (width) => {
      const shown = await opened(width);
      const overflow = await shown.locator('html').evaluate((root) => root.scrollWidth);
      expect(overflow).toBeLessThanOrEqual(width);
      expect(await barriers(shown)).toEqual([]);
      await shown.emulateMedia({ colorScheme: 'dark' });
      expect(await barriers(shown, { runOnly: ['color-contrast'] })).toEqual([]);
      await shown.context().close();
    });

    test('words in pictures can be read on a phone', async () => {
      const shown = await opened(390);
      const sizes = await shown.locator('.figure svg text').evaluateAll((texts) =>
        texts
          .filter((text) => text.textContent && text.checkVisibility())
          .map((text) => {
            const { ownerSVGElement: svg } = text as SVGTextElement;
            const scale = svg!.getBoundingClientRect().width / svg!.viewBox.baseVal.width;
            return scale * Number.parseFloat(getComputedStyle(text).fontSize);
          }),
      );
      expect(sizes.length).toBeGreaterThan(100);
      expect(Math.min(...sizes)).toBeGreaterThanOrEqual(LEAST_LETTERS);
      await shown.context().close();
    });

    test('the short answer fits the first screen: thresholds, bands, verdict, next session', async () => {
      const shown = await opened(1440);
      const short = shown.getByRole('region', { name: 'In short' });
      const { y, height } = (await short.boundingBox())!;
      expect(y + height).toBeLessThanOrEqual(900);
      const text = await short.textContent();
      for (const part of ['First threshold', 'Second threshold', 'Easy:', 'Too hard', '× 8'])
        expect(text).toContain(part);
      await shown.context().close();
    });

    test('no picture is cut in print', async () => {
      const shown = await opened(1440);
      await shown.emulateMedia({ media: 'print' });
      await shown.setViewportSize({ width: 718, height: 1047 }); // A4 within margins of 1 cm, at 96 px an inch
      const taller = await shown
        .locator('.result .figure .picture')
        .evaluateAll((pictures) => pictures.map((one) => one.scrollHeight).filter((height) => height > 1047));
      expect(taller).toEqual([]);
      const wider = await shown
        .locator('.result .figure svg')
        .evaluateAll((pictures) => pictures.filter((one) => one.getBoundingClientRect().right > 718).length);
      expect(wider).toBe(0);
      await shown.context().close();
    });
  });

  test.each([390, 1440])('the host fits %i px', async (width) => {
    await page.setViewportSize({ width, height: 900 });
    await page.goto(stage.served.url);
    await workbookFrame(page);
    await untilStatus(page, 'Up to date');
    expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
  });
});
