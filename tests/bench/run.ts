// `npm run bench`: what a reader waits for, in real Chromium on the built workbook, each beside its budget; and
// the cost of a draw in Node. Nothing here fails a build: times depend on the machine. Read them as a whole.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Frame, Page } from 'playwright-core';
import { openStage, type Stage, typeInto, untilStatus, workbookFrame } from '../e2e/helpers.ts';
import { drawCosts } from './draws.ts';
import { drawsInPage } from './drawsInPage.ts';
import { millionDraws } from './millionDraws.ts';
import { referenceLines } from './references.ts';

const dist = path.resolve(import.meta.dirname, '../../dist');

/** The pause in typing after which an edited cell runs (src/page), ms. */
const DEBOUNCE = 250;

const sorted = (values: number[]) => values.toSorted((a, b) => a - b);
const median = (values: number[]) => sorted(values)[Math.floor(values.length / 2)]!;
const percentile95 = (values: number[]) => sorted(values)[Math.ceil(values.length * 0.95) - 1]!;
const milliseconds = (value: number) => `${value.toFixed(value < 10 ? 1 : 0)} ms`;

function say(what: string, figure: string, budget = ''): void {
  console.log(`${what.padEnd(76)} ${figure.padStart(16)}  ${budget && `budget ${budget}`}`);
}

/** gzip KB of what a first visit fetches before the first chart: host, frame and Plot. */
function firstLoadSize(): void {
  const first = readdirSync(dist, { recursive: true, encoding: 'utf8' }).filter((file) =>
    /^(index\.html|frame\..*\.html|plot\..*\.js|assets\/index-.*)$/.test(file),
  );
  const bytes = first.reduce((sum, file) => sum + gzipSync(readFileSync(path.join(dist, file))).length, 0);
  say('before the first chart, gzip', `${(bytes / 1000).toFixed(0)} KB`, '250 KB');
}

/** A browser that was just started is busy with itself for some seconds (its own start page, services). */
const SETTLED = 4000;

/** Runs in every document before its scripts: notes when a chart's picture is put in, which the same frame paints. */
const noteFirstChart = () => {
  const watcher = new MutationObserver(() => {
    if (!document.querySelector('figure svg')) return;
    watcher.disconnect();
    Object.assign(globalThis, { firstChart: performance.timeOrigin + performance.now() });
  });
  watcher.observe(document, { childList: true, subtree: true });
};

/** Time from navigation to the first drawn chart, with nothing cached, in a browser at rest; a new profile each. */
async function firstChart(stage: Stage, times: number): Promise<void> {
  const taken: number[] = [];
  for (let i = 0; i < times; i++) {
    const context = await stage.context();
    const page = await context.newPage();
    await page.addInitScript(noteFirstChart);
    await page.goto('about:blank');
    await page.waitForTimeout(SETTLED);
    await page.goto(stage.served.url);
    const start = await page.evaluate(() => performance.timeOrigin);
    const frame = await workbookFrame(page);
    await frame.waitForFunction('self.firstChart');
    taken.push((await frame.evaluate<number>('firstChart')) - start);
    await context.close();
  }
  say(`first chart, cold, median of ${times}`, milliseconds(median(taken)), '1000 ms');
}

async function openWorkbook(stage: Stage): Promise<{ page: Page; frame: Frame }> {
  const page = await (await stage.context()).newPage();
  await page.goto(stage.served.url);
  const frame = await workbookFrame(page);
  await untilStatus(page, 'Up to date');
  // tsx marks named functions with a helper, also those that are sent to the page.
  await frame.evaluate('globalThis.__name = (value) => value');
  return { page, frame };
}

/**
 * Starts to watch a cell's result; the returned promise gives the ms from the last input event in the frame until
 * its chart is drawn anew and laid out.
 */
const watchRedraw = (frame: Frame, cell: string) =>
  frame.evaluate((name) => {
    const result = document.querySelector(`hour-cell[data-cell="${name}"] .result`)!;
    const holds = (node: Node) =>
      node instanceof Element && (node.matches('svg') || node.querySelector('svg'));
    let start = 0;
    const touched = () => {
      start = performance.now();
    };
    addEventListener('input', touched, { capture: true });
    const redrawn = new Promise<number>((resolve) => {
      const watcher = new MutationObserver((changes) => {
        if (!changes.some((change) => [...change.addedNodes].some(holds))) return;
        watcher.disconnect();
        removeEventListener('input', touched, { capture: true });
        result.getBoundingClientRect(); // lays it out
        resolve(performance.now() - start);
      });
      watcher.observe(result, { childList: true, subtree: true });
    });
    Object.assign(globalThis, { redrawn });
  }, cell);

const redrawn = (frame: Frame) =>
  frame.evaluate(() => (globalThis as unknown as { redrawn: Promise<number> }).redrawn);

/** Drags the meter's repeatability: each move comes as soon as the panel of the move before it is painted. */
async function controlMove(stage: Stage): Promise<void> {
  const { frame } = await openWorkbook(stage);
  await frame.locator('hour-cell[data-cell="65-sensitivity.ts"] figure').scrollIntoViewIfNeeded();
  const taken: number[] = [];
  for (let i = 0; i < 45; i++) {
    await watchRedraw(frame, '65-sensitivity.ts');
    await frame.evaluate(
      (value) => {
        const slider = document.querySelector<HTMLInputElement>(
          'hour-cell[data-cell="60-meter.ts"] [type=range]',
        )!;
        slider.value = value;
        slider.dispatchEvent(new Event('input', { bubbles: true }));
      },
      String(0.05 + 0.01 * i),
    );
    taken.push(await redrawn(frame));
    await frame.evaluate(() => new Promise((done) => requestAnimationFrame(() => setTimeout(done))));
  }
  const warm = taken.slice(5);
  const figure = `${milliseconds(median(warm))}, ${milliseconds(percentile95(warm))}`;
  say('control dragged to panel redrawn, 1,000 draws (median, 95th percentile)', figure, '50 ms');
}

/** Types another model into the curve cell. */
async function editToChart(stage: Stage): Promise<void> {
  const { page, frame } = await openWorkbook(stage);
  const name = '40-curve.ts';
  const text = readFileSync(path.resolve(import.meta.dirname, '../../cells/athlete', name), 'utf8');
  const taken: number[] = [];
  await frame.locator(`hour-cell[data-cell="${name}"]`).scrollIntoViewIfNeeded();
  for (let i = 0; i < 10; i++) {
    await watchRedraw(frame, name);
    const model = i % 2 ? 'quartic' : 'quadratic';
    await typeInto(page, frame, name, text.replace('model: model.value', `model: '${model}'`));
    taken.push((await redrawn(frame)) - DEBOUNCE);
    await untilStatus(page, 'Up to date');
  }
  say('edit to new chart, after the debounce, median of 10', milliseconds(median(taken)), '100 ms');
}

firstLoadSize();
const stage = await openStage(dist);
try {
  await firstChart(stage, 7);
  await editToChart(stage);
  await controlMove(stage);
  for (const { what, figure, budget } of await drawsInPage(stage)) say(what, figure, budget);
} finally {
  await stage.close();
}
for (const { what, figure, budget } of [...drawCosts(), ...millionDraws(), ...referenceLines()]) {
  say(what, figure, budget);
}
