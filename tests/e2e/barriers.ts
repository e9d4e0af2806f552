import axe, { type AxeResults, type RunOptions } from 'axe-core';
import type { Frame, Page } from 'playwright-core';
import { expect } from 'vitest';

/** What axe-core finds wrong with a page for those who use it without seeing or without a mouse. */
export async function barriers(page: Page, options: RunOptions = {}): Promise<string[]> {
  await page.evaluate(axe.source);
  // To report on every node that is as it should be takes four times as long as to look at them all.
  const asked: RunOptions = { resultTypes: ['violations'], ...options };
  const { violations, passes } = await page.evaluate<AxeResults>(`axe.run(${JSON.stringify(asked)})`);
  expect(passes.length).toBeGreaterThan(0);
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html.slice(0, 150)).join(' ')}`);
}

/** Leaves of the workbook only some cells; runs in the frame's document or a copy of it. */
const MARKUP = `(names) => {
  const copy = document.documentElement.cloneNode(true);
  copy.querySelectorAll('script, meta[http-equiv]').forEach((one) => one.remove());
  if (names) copy.querySelectorAll('hour-cell').forEach((one) => names.includes(one.dataset.cell) || one.remove());
  return copy.outerHTML;
}`;

/**
 * The same for the workbook in its frame, or for some of its cells, in both themes. axe-core looks at a copy, for the frame
 * does not let it make the elements that it needs; the main landmark is that of the page around the frame.
 */
export async function barriersIn(frame: Frame, page: Page, cells?: readonly string[]): Promise<string[]> {
  const names = cells?.map((cell) => `${cell}.ts`);
  const html = await frame.evaluate<string>(`(${MARKUP})(${JSON.stringify(names ?? null)})`);
  const copy = await page.context().newPage();
  await copy.setViewportSize(page.viewportSize()!);
  await copy.setContent(html);
  const whole = { 'landmark-one-main': { enabled: false }, 'page-has-heading-one': { enabled: !cells } };
  const theme = await copy.locator('html').getAttribute('data-theme');
  const found = await barriers(copy, { rules: whole });
  const other = theme === 'dark' ? 'light' : 'dark';
  await copy.evaluate(`document.documentElement.dataset.theme = '${other}'`);
  // Nothing but colours differs between the themes.
  const inOther = await barriers(copy, { runOnly: ['color-contrast'] });
  await copy.close();
  return [...found, ...inOther.map((one) => `${other}: ${one}`)];
}
