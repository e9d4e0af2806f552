// `npm run bench`: what a reader waits for, in real Chromium on the built workbook, each beside its budget; and
// the cost of a draw in Node. Nothing here fails a build: times depend on the machine. Read them as a whole.
import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import type { Frame } from 'playwright-core';
import { openStage, type Stage, typeInto, untilStatus, workbookFrame } from '../e2e/helpers.ts';
import { drawCosts } from './draws.ts';

const dist = path.resolve(import.meta.dirname, '../../dist');

interface Line {
  what: string;
  figure: string;
  budget: string;
}

const median = (values: number[]) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)]!;
const percentile95 = (values: number[]) =>
  values.toSorted((a, b) => a - b)[Math.ceil(values.length * 0.95) - 1]!;
const milliseconds = (value: number) => `${value.toFixed(value < 10 ? 1 : 0)} ms`;

/** gzip KB of what a first visit fetches before the first chart: host, frame and Plot. */
function firstLoadSize(): Line {
  const first = readdirSync(dist, { recursive: true, encoding: 'utf8' }).filter((file) =>
    /^(index\.html|frame\..*\.html|plot\..*\.js|assets\/index-.*)$/.test(file),
  );
  const bytes = first.reduce((sum, file) => sum + gzipSync(readFileSync(path.join(dist, file))).length, 0);
  return {
    what: 'before the first chart, gzip',
    figure: `${(bytes / 1000).toFixed(0)} KB`,
    budget: '250 KB',
  };
}

/** Time from navigation to the first drawn chart, with nothing cached; a new profile each. */
async function firstChart(stage: Stage, times: number): Promise<Line> {
  const taken: number[] = [];
  for (let i = 0; i < times; i++) {
    const context = await stage.context();
    const page = await context.newPage();
    const start = performance.now();
    await page.goto(stage.served.url, { waitUntil: 'commit' });
    const element = await page.waitForSelector('main > iframe');
    await (await element.contentFrame())!.waitForSelector('figure svg');
    taken.push(performance.now() - start);
    await context.close();
  }
  return {
    what: `first chart, cold, median of ${times}`,
    figure: milliseconds(median(taken)),
    budget: '1000 ms',
  };
}

/** Resolves to the ms until the chart of a cell was drawn anew and a frame was shown. */
const redraws = (frame: Frame, cell: string, cause: string) =>
  frame.evaluate(
    ([name, script]) =>
      new Promise<number>((resolve) => {
        const result = document.querySelector(`hour-cell[data-cell="${name}"] .result`)!;
        let start = 0;
        const watcher = new MutationObserver((changes) => {
          const drawn = changes.some((c) =>
            [...c.addedNodes].some(
              (n) => n instanceof Element && (n.matches('svg') || n.querySelector('svg')),
            ),
          );
          if (!drawn) return;
          watcher.disconnect();
          requestAnimationFrame(() => resolve(performance.now() - start));
        });
        watcher.observe(result, { childList: true, subtree: true });
        start = performance.now();
        // biome-ignore lint/security/noGlobalEval: the page under test is our own
        (0, eval)(script!);
      }),
    [cell, cause],
  );

/** Moves the meter's repeatability and waits for the whole sensitivity panel. */
async function controlMove(frame: Frame): Promise<Line> {
  const taken: number[] = [];
  for (let i = 0; i < 40; i++) {
    const move = `{
      const slider = document.querySelector('hour-cell[data-cell="60-meter.ts"] input[type=range]');
      slider.value = String(${0.05 + 0.005 * i});
      slider.dispatchEvent(new Event('input', { bubbles: true }));
    }`;
    taken.push(await redraws(frame, '65-sensitivity.ts', move));
  }
  const warm = taken.slice(5);
  return {
    what: 'control moved to panel redrawn, 1,000 draws (median, 95th percentile)',
    figure: `${milliseconds(median(warm))}, ${milliseconds(percentile95(warm))}`,
    budget: '50 ms',
  };
}

/** Edits the curve cell and runs it by key, which leaves the debounce out. */
async function editToChart(stage: Stage): Promise<Line> {
  const context = await stage.context();
  const page = await context.newPage();
  await page.goto(stage.served.url);
  const frame = await workbookFrame(page);
  await untilStatus(page, 'Up to date');
  const name = '40-curve.ts';
  const text = readFileSync(path.resolve(import.meta.dirname, '../../cells/athlete', name), 'utf8');
  const taken: number[] = [];
  for (let i = 0; i < 10; i++) {
    const next = text
      .replace('The curve', `The curve ${i}`)
      .replace('model: model.value', `model: '${i % 2 ? 'cubic' : 'quartic'}'`);
    await frame.locator(`hour-cell[data-cell="${name}"]`).scrollIntoViewIfNeeded();
    await typeInto(page, frame, name, next);
    const press = `document.querySelector('hour-cell[data-cell="${name}"] .cm-content').dispatchEvent(
      new KeyboardEvent('keydown', { key: 'Enter', code: 'Enter', keyCode: 13, ctrlKey: true, bubbles: true }))`;
    taken.push(await redraws(frame, name, press));
    await untilStatus(page, 'Up to date');
  }
  await context.close();
  return {
    what: 'edit run to new chart, after the debounce, median of 10',
    figure: milliseconds(median(taken)),
    budget: '100 ms',
  };
}

const stage = await openStage(dist);
const lines: Line[] = [firstLoadSize()];
try {
  lines.push(await firstChart(stage, 7));
  lines.push(await editToChart(stage));
  const context = await stage.context();
  const page = await context.newPage();
  await page.goto(stage.served.url);
  const frame = await workbookFrame(page);
  await untilStatus(page, 'Up to date');
  lines.push(await controlMove(frame));
} finally {
  await stage.close();
}
lines.push(...drawCosts());
const width = Math.max(...lines.map((line) => line.what.length));
for (const { what, figure, budget } of lines) {
  console.log(`${what.padEnd(width)}  ${figure.padStart(16)}  ${budget ? `budget ${budget}` : ''}`);
}
