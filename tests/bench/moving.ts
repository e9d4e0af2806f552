import { readFileSync } from 'node:fs';
import path from 'node:path';
import type { Frame, Page } from 'playwright-core';
import { type Stage, typeInto, untilStatus, workbookFrame } from '../e2e/helpers.ts';
import { type Measured, median, milliseconds, percentile95 } from './figures.ts';

/** The pause in typing after which an edited cell runs (src/page), ms. */
const DEBOUNCE = 250;

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
    const draws = ({ target, addedNodes }: MutationRecord) =>
      (target instanceof Element ? target : target.parentElement)?.closest('svg') ||
      [...addedNodes].some(holds);
    let start = 0;
    const touched = () => {
      start = performance.now();
    };
    addEventListener('input', touched, { capture: true });
    const redrawn = new Promise<number>((resolve) => {
      const watcher = new MutationObserver((changes) => {
        if (!changes.some(draws)) return;
        watcher.disconnect();
        removeEventListener('input', touched, { capture: true });
        result.getBoundingClientRect(); // lays it out
        resolve(performance.now() - start);
      });
      watcher.observe(result, { childList: true, subtree: true, attributes: true, characterData: true });
    });
    Object.assign(globalThis, { redrawn });
  }, cell);

const redrawn = (frame: Frame) =>
  frame.evaluate(() => (globalThis as unknown as { redrawn: Promise<number> }).redrawn);

/** Drags the meter's repeatability: each move comes as soon as the panel of the move before it is painted. */
export async function controlMove(stage: Stage): Promise<Measured> {
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
  return {
    what: 'control dragged to panel redrawn, 1,000 draws (median, 95th percentile)',
    figure: `${milliseconds(median(warm))}, ${milliseconds(percentile95(warm))}`,
    budget: '95th percentile 16.7 ms',
  };
}

/** Types another model into the curve cell. */
export async function editToChart(stage: Stage): Promise<Measured> {
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
  return {
    what: 'edit to new chart, after the debounce, median of 10',
    figure: milliseconds(median(taken)),
    budget: '100 ms',
  };
}
