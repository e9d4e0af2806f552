import { describe, expect, test } from 'vitest';
import { page as browser } from 'vitest/browser';
import { grid } from '../../src/view/controls.ts';
import { table } from '../../src/view/view.ts';
import { openPage } from './support/openPage.ts';

/** Contrast of WCAG 2.2 for text (success criterion 1.4.3, level AA) and for graphics (1.4.11). */
const TEXT = 4.5;
const GRAPHIC = 3;

/** Red, green and blue from 0 to 1 of a colour of tokens.css in a theme. */
function colour(name: string, theme: 'light' | 'dark'): number[] {
  document.documentElement.dataset.theme = theme;
  const probe = document.createElement('span');
  probe.style.color = `var(${name})`;
  document.body.append(probe);
  const numbers = getComputedStyle(probe)
    .color.match(/[\d.]+/g)!
    .map(Number);
  probe.remove();
  return numbers.slice(0, 3).map((part) => part / 255);
}

/** Relative luminance, as WCAG 2.2 defines it. */
const luminance = (parts: number[]) => {
  const [r, g, b] = parts.map((part) => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4));
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
};

function contrast(first: string, second: string, theme: 'light' | 'dark'): number {
  const [low, high] = [first, second].map((name) => luminance(colour(name, theme))).toSorted((a, b) => a - b);
  return (high! + 0.05) / (low! + 0.05);
}

const WORDS = ['--ink', '--muted', '--first', '--second', '--problem', '--caution', '--good'];
const CODE = ['--code-word', '--code-text', '--code-number', '--code-name', '--code-type', '--code-remark'];
const SERIES = [1, 2, 3, 4, 5, 6].map((n) => `--series-${n}`);

/** What stands on what: text on its ground, lines on paper. */
const PAIRS: [string[], string[], number][] = [
  [WORDS, ['--paper', '--sheet', '--raised'], TEXT],
  [CODE, ['--sheet'], TEXT],
  [['--ink'], ['--first-soft', '--second-soft', '--code-selection', '--undecided-soft'], TEXT],
  [['--ink', '--problem'], ['--problem-soft'], TEXT],
  [['--ink', '--caution'], ['--caution-soft'], TEXT],
  [['--ink', '--good'], ['--good-soft'], TEXT],
  [['--paper'], ['--first'], TEXT],
  [[...SERIES, '--edge', '--focus', '--undecided'], ['--paper', '--sheet'], GRAPHIC],
];

describe.each(['light', 'dark'] as const)('%s theme', (theme) => {
  test('every colour is told from its ground', async () => {
    await openPage([], () => ({}));
    const weak = PAIRS.flatMap(([fronts, grounds, least]) =>
      fronts.flatMap((front) =>
        grounds.flatMap((ground) => {
          const ratio = contrast(front, ground, theme);
          return ratio < least ? [`${front} on ${ground}: ${ratio.toFixed(2)}`] : [];
        }),
      ),
    );
    expect(weak).toEqual([]);
  });
});

test('the contrast formula gives the 21 of black on white that WCAG states', () => {
  document.documentElement.style.setProperty('--black', '#000');
  document.documentElement.style.setProperty('--white', '#fff');
  expect(contrast('--black', '--white', 'light')).toBeCloseTo(21, 10);
});

test('nothing is wider than a page of 390 px', async () => {
  const headings = ['stage', 'duration (min)', 'power (W)', 'heart rate (1/min)', 'lactate (mmol/L)'];
  const row = headings.map(() => '1234567');
  const wide = grid({
    label: 'Stages',
    value: { headings, rows: [row] },
    read: () => ({ headings, rows: [] }),
  });
  const columns = headings.map((heading) => ({ key: heading, heading }));
  const long = 'export const aVeryLongNameThatCannotBeBroken = anotherVeryLongNameThatCannotBeBrokenEither;';
  const open = await openPage([{ name: 'a.ts', text: long }], () => ({
    controls: [{ name: 'wide', control: wide, value: wide.value }],
    shown: [
      table({ caption: 'All', columns, rows: [Object.fromEntries(headings.map((h) => [h, '1234567']))] }),
      long,
    ],
  }));
  await browser.viewport(390, 800);
  await new Promise(requestAnimationFrame);
  expect(document.documentElement.scrollWidth).toBeLessThanOrEqual(390);
  const boxes = [...open.page.querySelectorAll<HTMLElement>('.table-scroll')];
  expect(boxes).toHaveLength(2);
  expect(boxes.every((box) => box.scrollWidth > box.clientWidth)).toBe(true);
  // The shadow at a cut edge stays, its cover moves with the table.
  for (const box of boxes) {
    const { backgroundImage, backgroundAttachment } = getComputedStyle(box);
    expect(backgroundImage.match(/linear-gradient/g)).toHaveLength(4);
    expect(backgroundAttachment).toMatch(/^local, local, scroll, scroll/);
  }
});

test('on wide screens the code stands beside the result, on narrow ones beneath', async () => {
  const open = await openPage([{ name: 'a.ts', text: '1' }], () => ({ shown: 'one' }));
  const box = (selector: string) => open.find('a.ts', selector).getBoundingClientRect();
  await browser.viewport(1440, 900);
  expect(box('.work').left).toBeGreaterThan(box('.shown').right);
  expect(box('.work').top).toBe(box('.shown').top);
  await browser.viewport(390, 800);
  expect(box('.work').top).toBeGreaterThanOrEqual(box('.shown').bottom);
});
