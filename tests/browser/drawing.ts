import * as Plot from '@observablehq/plot';
import type { ChartView } from '../../src/view/view.ts';

/** A chart drawn into the page at this width; the box around it. */
export function drawn(view: ChartView, width: number): HTMLElement {
  const box = document.createElement('div');
  box.style.cssText = `width: ${width}px; font: 16px sans-serif`;
  box.append(view.draw({ Plot, document, width }));
  document.body.append(box);
  return box;
}

export const texts = (box: Element): Element[] =>
  [...box.querySelectorAll('svg text')].filter((t) => (t.textContent ?? '').trim() !== '');

/** Pairs of labels whose boxes share more than a sliver. */
export function collisions(box: Element): string[] {
  const all = texts(box).map((t) => ({ text: t.textContent, box: t.getBoundingClientRect() }));
  return all.flatMap((a, i) =>
    all
      .slice(i + 1)
      .filter((b) => {
        const across = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
        const down = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
        return across > 1 && down > 3;
      })
      .map((b) => `${a.text} / ${b.text}`),
  );
}

/** Labels that reach beyond the picture. */
export function strays(box: Element): string[] {
  const frame = box.querySelector('svg')!.getBoundingClientRect();
  return texts(box)
    .filter((text) => {
      const at = text.getBoundingClientRect();
      return at.left < frame.left - 1 || at.right > frame.right + 1 || at.bottom > frame.bottom + 1;
    })
    .map((text) => text.textContent ?? '');
}

/** Attributes that are no numbers, as a browser would pass over them in silence. */
export const unfit = (box: Element): string[] => box.innerHTML.match(/NaN|undefined|Infinity/g) ?? [];
