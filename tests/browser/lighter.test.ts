import { afterEach, describe, expect, test } from 'vitest';
import { shippedByName } from '../../src/host/shipped.ts';
import { lighten } from '../../src/page/results/lighter.ts';
import { PAGE_WIDTH } from '../../src/page/results/snapshot.ts';
import { drawn, texts } from './drawing.ts';
import { chartsOf } from './support/charts.ts';

afterEach(() => document.body.replaceChildren());

/** A picture of these parts, and what becomes of them. */
function lightened(parts: string): string {
  const box = document.createElement('div');
  box.innerHTML = `<svg width="100" height="100" style="font-size: 10px">${parts}</svg>`;
  document.body.append(box);
  lighten(box.firstElementChild!);
  return box.firstElementChild!.innerHTML;
}

describe('a lighter picture', () => {
  test.each([
    [
      'lines that look alike become one path',
      '<g stroke="red"><line x1="0" x2="9" y1="1" y2="1"/><line x1="0" x2="9" y1="3.04" y2="3.04"/></g>',
      '<g stroke="red"><path d="m0 1h9m-9 2h9"></path></g>',
    ],
    [
      'fields of a table are sorted by their colour, for they are apart',
      '<rect x="0" y="0" width="4" height="4" fill="a"/><rect x="5" y="0" width="4" height="4" fill="b"/><rect x="10" y="0" width="4" height="4" fill="a"/>',
      '<path d="m0 0h4v4h-4zm10 0h4v4h-4z" fill="a"></path><path d="m5 0h4v4h-4z" fill="b"></path>',
    ],
    [
      'what lies on another stays on it',
      '<rect x="0" y="0" width="4" height="4" fill="a"/><rect x="2" y="0" width="9" height="4" fill="b"/><rect x="8" y="0" width="4" height="4" fill="a"/>',
      '<path d="m0 0h4v4h-4z" fill="a"></path><path d="m2 0h9v4h-9z" fill="b"></path><path d="m8 0h4v4h-4z" fill="a"></path>',
    ],
    [
      'nor does it pass a part of unknown outline',
      '<line x2="9"/><circle r="2"/><line x2="9" y1="50" y2="50"/>',
      '<path d="m0 0h9"></path><circle r="2"></circle><path d="m0 50h9"></path>',
    ],
    [
      'see-through lines that cross are drawn one after the other',
      '<line x2="9" stroke-opacity="0.5"/><line x1="4" x2="4" y1="-4" y2="4" stroke-opacity="0.5"/>',
      '<path d="m0 0h9" stroke-opacity="0.5"></path><path d="m4-4v8" stroke-opacity="0.5"></path>',
    ],
    [
      'a curve keeps its points, but for those on the way',
      '<path transform="translate(10, 1)" d="M0,0L1,0.001L2,0L3,5" fill="none"/>',
      '<path d="m10 1h2l1 5" fill="none"></path>',
    ],
    [
      'a polygon is a path that is closed',
      '<polygon points="10,1 11,1 12,1 12,5.04" fill="a"/>',
      '<path d="m10 1h2v4z" fill="a"></path>',
    ],
    [
      'a text stands where it was put',
      '<text y="0.32em" transform="translate(20.04,30)">a</text><text y="0.32em" transform="translate(1,2) rotate(-90)">b</text>',
      '<text y="33.2" x="20">a</text><text y="0.32em" transform="translate(1,2) rotate(-90)">b</text>',
    ],
    [
      'and one with a place and a shift, whichever unit the shift has',
      '<text x="3" y="7" dy="0.32em">a</text><text x="3" dy="2">b</text><text x="3" dx="1" dy="2">c</text><text x="50%" dy="2">d</text>',
      '<text x="3" y="10.2">a</text><text x="3" y="2">b</text><text x="3" dx="1" dy="2">c</text><text x="50%" dy="2">d</text>',
    ],
    [
      'what all parts say is said by their group, and exceptions by themselves',
      '<g fill="z"><circle r="1" fill="a"/><circle r="2" fill="b"/><circle r="3" fill="a"/></g><g><circle r="1" fill="a"/><circle r="2"/></g>',
      '<g fill="a"><circle r="1"></circle><circle r="2" fill="b"></circle><circle r="3"></circle></g><g><circle r="1" fill="a"></circle><circle r="2"></circle></g>',
    ],
    [
      'rounded corners, marks on lines, scales and clips stay as they are',
      '<rect width="4" height="4" rx="1"/><line x2="9" marker-end="url(#m)"/><rect width="4" height="4" transform="scale(2.345)"/><clipPath><rect width="4" height="4"/></clipPath><rect width="0" height="4"/>',
      '<rect width="4" height="4" rx="1"></rect><line x2="9" marker-end="url(#m)"></line><rect width="4" height="4" transform="scale(2.345)"></rect><clipPath><rect width="4" height="4"></rect></clipPath><rect width="0" height="4"></rect>',
    ],
  ])('%s', (_, before, after) => {
    expect(lightened(before)).toBe(after);
  });
});

const COLOURS: Record<string, string> = { paper: '#fff', first: '#068', second: '#a31', rule: '#ccc' };

/** What a picture shows but for its texts, in pixels. */
async function pixels(svg: Element): Promise<Uint8ClampedArray> {
  const copy = svg.cloneNode(true) as SVGSVGElement;
  for (const text of copy.querySelectorAll('text')) text.remove();
  const markup = new XMLSerializer()
    .serializeToString(copy)
    .replace(/var\(--(\w+)[\w-]*\)/g, (_, name) => COLOURS[name] ?? '#222');
  const image = new Image();
  image.src = URL.createObjectURL(new Blob([markup], { type: 'image/svg+xml' }));
  await image.decode();
  URL.revokeObjectURL(image.src);
  const canvas = new OffscreenCanvas(image.width, image.height);
  const context = canvas.getContext('2d')!;
  context.fillStyle = '#fff';
  context.fillRect(0, 0, image.width, image.height);
  context.drawImage(image, 0, 0);
  return context.getImageData(0, 0, image.width, image.height).data;
}

/** Of all channels of all pixels, those that changed by more than MOST. */
function changed(a: Uint8ClampedArray, b: Uint8ClampedArray): number {
  let count = 0;
  for (let i = 0; i < a.length; i++) if (Math.abs(a[i]! - b[i]!) > MOST) count++;
  return count / a.length;
}

const middles = (box: Element) =>
  texts(box).map((text) => {
    const { left, right, top, bottom } = text.getBoundingClientRect();
    return { text: text.textContent, x: (left + right) / 2, y: (top + bottom) / 2 };
  });

/**
 * An edge moves by 0.12 px at most (half a tenth each way by rounding, half a tenth by points left out), which changes what it
 * covers of a pixel by 0.17 at most: 43 of 255. The browser counts coverage in sixteenths: 16 more.
 */
const MOST = 43 + 16;
/** Where edges meet in one pixel, as at the feet of a ridge, their changes add up. */
const FEW = 1 / 10_000;

describe('the pictures of the sample', () => {
  test('look the same in less than half the letters', async () => {
    const charts = await chartsOf(await shippedByName('cyclist')!.cells());
    expect(charts.length).toBeGreaterThan(10);
    const letters = { before: 0, after: 0 };
    for (const chart of charts) {
      const box = drawn(chart, PAGE_WIDTH);
      const svg = box.querySelector('svg')!;
      const before = { pixels: await pixels(svg), texts: middles(box), letters: svg.outerHTML.length };
      lighten(svg);
      expect(changed(before.pixels, await pixels(svg)), chart.title).toBeLessThan(FEW);
      middles(box).forEach(({ text, x, y }, i) => {
        expect({
          text,
          there: Math.abs(x - before.texts[i]!.x) < 0.11 && Math.abs(y - before.texts[i]!.y) < 0.11,
        }).toEqual({
          text: before.texts[i]!.text,
          there: true,
        });
      });
      letters.before += before.letters;
      letters.after += svg.outerHTML.length;
      box.remove();
    }
    expect(letters.after / letters.before).toBeLessThan(1 / 2);
  }, 60_000);

  test('would be told from pictures that moved by a fourth of a pixel', async () => {
    const [chart] = await chartsOf(await shippedByName('lactate-minimum')!.cells());
    const svg = drawn(chart!, PAGE_WIDTH).querySelector('svg')!;
    const before = await pixels(svg);
    for (const group of svg.querySelectorAll(':scope > g'))
      group.setAttribute('transform', `translate(0.25, 0.25) ${group.getAttribute('transform')}`);
    expect(changed(before, await pixels(svg))).toBeGreaterThan(FEW);
  });
});
