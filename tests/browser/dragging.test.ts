import { beforeEach, expect, test, vi } from 'vitest';
import { numberField, toggle } from '../../src/view/controls.ts';
import { chart, type Handle } from '../../src/view/view.ts';
import { openPage } from './support/openPage.ts';
import { soon } from './support/soon.ts';

/** A cell with a number and a picture of it: one point that stays, one that can be dragged. */
async function openDragged() {
  const control = numberField({ label: 'Lactate', value: 2, min: 0, max: 10, step: 0.1 });
  const open = await openPage([{ name: 'a.ts', text: '' }], (_text, _name, values) => {
    const other = toggle({ label: 'Other', value: (values.other ?? false) as boolean });
    const value = (values.level ?? 2) as number;
    const handle: Handle = {
      ...{ label: 'Reading at 240 W', value, unit: 'mmol/L', min: 0.1, max: 10, step: 0.1 },
      control,
      moved: (moved) => moved,
    };
    const view = chart({
      title: 'Level',
      summary: '',
      draw: ({ Plot, width }) =>
        Plot.plot({
          width,
          height: 300,
          // As with a real curve the scale follows what is dragged.
          y: { domain: [0, 5 * value] },
          marks: [Plot.dot([1, value], { x: [1, 2], y: [1, value], r: 6, className: 'handles' })],
        }) as SVGSVGElement,
      handles: [null, handle],
    });
    return {
      shown: view,
      controls: [
        { name: 'level', control, value },
        { name: 'other', control: other, value: other.value },
      ],
    };
  });
  open.engine.ownerOf = () => ({ cell: 'a.ts', name: 'level' });
  const circles = () => [...open.cell('a.ts').querySelectorAll<SVGCircleElement>('.handles circle')];
  await soon(() => expect(circles()).toHaveLength(2));
  const value = () => open.engine.state('a.ts').controls[0]!.value as number;
  return { ...open, circles, value };
}

const middle = (element: Element) => {
  const { left, top, width, height } = element.getBoundingClientRect();
  return { clientX: left + width / 2, clientY: top + height / 2 };
};
const pointer = (type: string, at: { clientX: number; clientY: number }) =>
  new PointerEvent(type, { ...at, bubbles: true, pointerId: 1, button: 0 });

beforeEach(() => {
  // A pointer made up for a test cannot be captured.
  vi.spyOn(Element.prototype, 'setPointerCapture').mockImplementation(() => {});
});

async function drag(circle: Element, up: number) {
  const from = middle(circle);
  const place = circle.closest('svg')!.parentElement!;
  circle.dispatchEvent(pointer('pointerdown', from));
  place.dispatchEvent(pointer('pointermove', { ...from, clientY: from.clientY - up }));
  await new Promise(requestAnimationFrame);
  await new Promise(requestAnimationFrame);
  return () => place.dispatchEvent(pointer('pointerup', from));
}

test('a point follows the pointer, in steps, and its control with it', async () => {
  const { circles, value } = await openDragged();
  const scale = (
    circles()[0]!.closest('svg') as unknown as { scale(name: string): { apply(v: number): number } }
  ).scale('y');
  const up = scale.apply(2) - scale.apply(5.04);
  const start = middle(circles()[1]!);
  const lastPlace = { ...start, clientY: start.clientY - up };
  const letGo = await drag(circles()[1]!, up);
  expect(value()).toBe(5);
  // The scale has changed beneath the pointer; a pointer that stays moves nothing.
  const place = circles()[1]!.closest('svg')!.parentElement!;
  place.dispatchEvent(pointer('pointermove', lastPlace));
  await new Promise(requestAnimationFrame);
  expect(value()).toBe(5);
  letGo();
  // What follows the pointer no longer moves anything.
  circles()[1]!
    .closest('svg')!
    .parentElement!.dispatchEvent(pointer('pointermove', middle(circles()[0]!)));
  await new Promise(requestAnimationFrame);
  expect(value()).toBe(5);
});

test('the move can be taken back', async () => {
  const { page, circles, value } = await openDragged();
  (await drag(circles()[1]!, 60))();
  const moved = value();
  expect(moved).toBeGreaterThan(2);
  await soon(() =>
    expect(page.textContent).toContain(`Reading at 240 W was moved from 2 to ${moved} mmol/L.`),
  );
  const undo = [...page.querySelectorAll('button')].find((button) => button.textContent?.trim() === 'Undo')!;
  undo.click();
  await soon(() => expect(value()).toBe(2));
});

test('a point without a handle stays where it is', async () => {
  const { circles, engine } = await openDragged();
  const before = engine.log.length;
  (await drag(circles()[0]!, 60))();
  expect(engine.log.slice(before)).toEqual([]);
});

test('with the keyboard: a slider by role, moved by the arrow keys, focused after the redraw', async () => {
  const { circles, value } = await openDragged();
  const [fixed, point] = circles();
  expect(fixed!.hasAttribute('tabindex')).toBe(false);
  expect(point!.getAttribute('role')).toBe('slider');
  expect(point!.getAttribute('aria-label')).toBe('Reading at 240 W');
  expect(point!.getAttribute('aria-valuetext')).toBe('2 mmol/L');
  point!.focus();
  point!.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowUp', bubbles: true }));
  await soon(() => expect(value()).toBe(2.1));
  await soon(() => expect(document.activeElement?.getAttribute('aria-valuetext')).toBe('2.1 mmol/L'));
});

test('Control and Z take the move back, and the offer goes once the control was changed otherwise', async () => {
  const { page, circles, value, engine } = await openDragged();
  const offer = () => page.querySelector('.undo-offer');
  const press = (key: string, more: KeyboardEventInit = {}) =>
    circles()[1]!.dispatchEvent(
      new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true, ...more }),
    );
  press('ArrowUp');
  await soon(() => expect(offer()).not.toBeNull());
  expect(value()).toBe(2.1);
  press('z', { ctrlKey: true });
  await soon(() => expect(value()).toBe(2));
  expect(offer()).toBeNull();
  press('ArrowUp');
  await soon(() => expect(offer()).not.toBeNull());
  const field = page.querySelector<HTMLInputElement>('input.number-entry')!;
  field.value = '3';
  field.dispatchEvent(new Event('change', { bubbles: true }));
  await soon(() => expect(offer()).toBeNull());
  expect(engine.state('a.ts').controls[0]!.value).toBe(3);
});

test('the offer goes once another control was moved: it must not stand over the page for good', async () => {
  const { page, circles, value } = await openDragged();
  (await drag(circles()[1]!, 60))();
  const moved = value();
  await soon(() => expect(page.querySelector('.undo-offer')).not.toBeNull());
  page.querySelector<HTMLInputElement>('input[type="checkbox"]')!.click();
  await soon(() => expect(page.querySelector('.undo-offer')).toBeNull());
  expect(value()).toBe(moved);
});

test('keys that come faster than the picture lose no step', async () => {
  const { circles, value } = await openDragged();
  circles()[1]!.focus();
  for (let press = 0; press < 5; press++) {
    circles()[1]!.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowUp', bubbles: true }));
  }
  await soon(() => expect(value()).toBe(2.5));
  await soon(() => expect(circles()[1]!.getAttribute('aria-valuetext')).toBe('2.5 mmol/L'));
  circles()[1]!.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowDown', bubbles: true }));
  await soon(() => expect(value()).toBe(2.4));
});
