import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { gzipSync } from 'node:zlib';
import { type Stage, untilStatus, workbookFrame } from '../e2e/helpers.ts';
import { type Measured, median, milliseconds } from './figures.ts';

/** gzip KB of what a first visit fetches before the first chart: host, frame, Plot and toolkit as the build names them. */
export function firstLoadSize(dist: string): Measured {
  const first = readdirSync(dist, { recursive: true, encoding: 'utf8' }).filter((file) =>
    /^(index\.html|frame\..*\.html|plot\..*\.js|assets\/(index|workbookDocument)-.*)$/.test(file),
  );
  const bytes = first.reduce((sum, file) => sum + gzipSync(readFileSync(path.join(dist, file))).length, 0);
  return {
    what: 'before the first chart, gzip',
    figure: `${(bytes / 1000).toFixed(0)} KB`,
    budget: '250 KB',
  };
}

/** A browser that was just started is busy with itself for some seconds (its own start page, services). */
const SETTLED = 4000;

/**
 * Runs in every document before its scripts: notes when a chart's picture is put in, which the same frame paints, and for
 * how long tasks held up the page beyond 50 ms each.
 */
const noteOpening = () => {
  const opening = { firstChart: 0, blocked: 0 };
  Object.assign(globalThis, { opening });
  const watcher = new MutationObserver(() => {
    if (!document.querySelector('figure svg')) return;
    watcher.disconnect();
    opening.firstChart = performance.timeOrigin + performance.now();
  });
  watcher.observe(document, { childList: true, subtree: true });
  new PerformanceObserver((list) => {
    for (const { duration } of list.getEntries()) opening.blocked += Math.max(0, duration - 50);
  }).observe({ type: 'longtask' });
};

/** From navigation to the first drawn chart, and what blocks until all is there; nothing cached, a new profile each time. */
export async function opening(stage: Stage, times: number): Promise<Measured[]> {
  const charts: number[] = [];
  const blocked: number[] = [];
  for (let i = 0; i < times; i++) {
    const context = await stage.context();
    const page = await context.newPage();
    await page.addInitScript(noteOpening);
    await page.goto('about:blank');
    await page.waitForTimeout(SETTLED);
    await page.goto(stage.served.url);
    const start = await page.evaluate(() => performance.timeOrigin);
    const frame = await workbookFrame(page);
    await untilStatus(page, 'Up to date');
    const noted = await frame.evaluate<{ firstChart: number; blocked: number }>('opening');
    charts.push(noted.firstChart - start);
    blocked.push(noted.blocked);
    await context.close();
  }
  return [
    {
      what: `first chart, cold, median of ${times}`,
      figure: milliseconds(median(charts)),
      budget: '1000 ms',
    },
    {
      what: `blocking time until all cells have run, median of ${times}`,
      figure: milliseconds(median(blocked)),
      budget: '600 ms',
    },
  ];
}
