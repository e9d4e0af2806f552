import type { DrawContext } from '../view/view.ts';

/** The picture and, beneath it in words, the methods that are not in it and why. */
export function withRefusals(
  { document }: DrawContext,
  picture: SVGSVGElement,
  refused: readonly { name: string; reason: string }[],
): SVGSVGElement | HTMLElement {
  if (refused.length === 0) return picture;
  const whole = document.createElement('div');
  const heading = document.createElement('p');
  heading.className = 'note refusals-heading';
  heading.textContent = 'No answer from this test';
  const list = document.createElement('ul');
  list.className = 'note refusals';
  for (const { name, reason } of refused) {
    const item = document.createElement('li');
    const strong = document.createElement('strong');
    strong.textContent = name;
    item.append(strong, `: ${reason}`);
    list.append(item);
  }
  whole.append(picture, heading, list);
  return whole;
}
