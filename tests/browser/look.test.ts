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

/** What stands on what: text on its ground, lines on paper. */
const PAIRS: [string[], string[], number][] = [
  [WORDS, ['--paper', '--sheet', '--raised'], TEXT],
  [CODE, ['--sheet'], TEXT],
  [['--ink'], ['--first-soft', '--second-soft', '--code-selection', '--undecided-soft'], TEXT],
  [['--ink', '--problem'], ['--problem-soft'], TEXT],
  [['--ink', '--caution'], ['--caution-soft'], TEXT],
  [['--ink', '--good'], ['--good-soft'], TEXT],
  [['--paper'], ['--first'], TEXT],
  [['--edge', '--focus', '--undecided'], ['--paper', '--sheet'], GRAPHIC],
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

/** How colours look without the cones for red, green or blue: Machado et al. 2009, IEEE Trans Vis Comput Graph 15:1291 (from memory). */
const WITHOUT = {
  red: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
  green: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
  blue: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
};
/** sRGB to the tristimulus values of CIE 1931, each in parts of the white of D65 (IEC 61966-2-1). */
const TO_XYZ = [0.4124, 0.3576, 0.1805, 0.2126, 0.7152, 0.0722, 0.0193, 0.1192, 0.9505];
const WHITE = [0.95047, 1, 1.08883];

const times = (matrix: readonly number[], v: readonly number[]) =>
  [0, 3, 6].map((at) => matrix[at]! * v[0]! + matrix[at + 1]! * v[1]! + matrix[at + 2]! * v[2]!);

/** Lightness and hue by CIE 1976 L*a*b*. */
function lab(name: string, theme: 'light' | 'dark', sight: readonly number[]): number[] {
  const linear = colour(name, theme).map((p) => (p <= 0.04045 ? p / 12.92 : ((p + 0.055) / 1.055) ** 2.4));
  const seen = times(sight, linear).map((part) => Math.min(1, Math.max(0, part)));
  const [x, y, z] = times(TO_XYZ, seen).map((part, i) => {
    const share = part / WHITE[i]!;
    return share > 0.008856 ? Math.cbrt(share) : 7.787 * share + 16 / 116;
  });
  return [116 * y! - 16, 500 * (x! - y!), 200 * (y! - z!)];
}

/** Ten times what is just seen side by side. (Our rule.) */
const APART = 23;

test.each(['light', 'dark'] as const)(
  '%s: the colours of the thresholds stay apart without one kind of cone',
  (theme) => {
    const near = Object.entries(WITHOUT).flatMap(([cone, sight]) => {
      const [first, second] = ['--first', '--second'].map((name) => lab(name, theme, sight));
      const distance = Math.hypot(...first!.map((part, i) => part - second![i]!));
      return distance < APART ? [`without ${cone}: ${distance.toFixed(1)}`] : [];
    });
    expect(near).toEqual([]);
  },
);

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
