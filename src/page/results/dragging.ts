import type { Handle } from '../../view/view.ts';

/** What dragging needs of the chart and of the page around it. */
export interface DragTools {
  /** Moves the control of a handle, without waiting for what reads it. */
  move(handle: Handle, value: number): void;
  /** Offers to take back a move from `before`. */
  offerUndo(handle: Handle, before: number, after: number): void;
}

interface Drawn {
  handles: readonly (Handle | null)[];
  circles: SVGCircleElement[];
  /** By how much the value changes a pixel further down the screen; the y scale of the picture is straight. */
  perPixel: number;
}

/**
 * Lets the reader drag points of a picture up and down, by pointer or with the arrow keys. The picture is drawn anew while
 * a point is moved, so everything is held by its place in the list and not by its element.
 */
export class Dragging {
  readonly #place: HTMLElement;
  readonly #tools: DragTools;
  #drawn: Drawn | null = null;
  /** The point in hand: its place, where it was, where it is; by pointer also where that was and what a pixel is worth. */
  #held: { at: number; before: number; value: number; fromY: number; perPixel: number } | null = null;
  /** The point that was moved by keys last and where to: the next key may come before the picture shows it. */
  #pressed: { at: number; value: number } | null = null;
  #frame = 0;

  constructor(place: HTMLElement, tools: DragTools) {
    this.#place = place;
    this.#tools = tools;
    place.addEventListener('pointerdown', (event) => this.#take(event));
    place.addEventListener('pointermove', (event) => this.#drag(event));
    place.addEventListener('pointerup', () => this.#letGo());
    place.addEventListener('pointercancel', () => this.#letGo());
    place.addEventListener('keydown', (event) => this.#key(event));
    // A picture that is replaced takes the focus out of the page for a moment, to nowhere.
    place.addEventListener('focusout', ({ relatedTarget }) => {
      if (relatedTarget) this.#pressed = null;
    });
  }

  /** Puts a new picture in the place of the old one; the point in focus keeps it. */
  show(picture: Element, handles: readonly (Handle | null)[] | undefined): void {
    const focused = this.#placeOf(document.activeElement);
    this.#place.replaceChildren(picture);
    this.#drawn = handles ? drawnHandles(picture, handles) : null;
    this.#drawn?.circles.forEach((circle, i) => {
      const handle = handles![i];
      if (handle) dress(circle, handle);
    });
    if (this.#pressed && handles?.[this.#pressed.at]?.value === this.#pressed.value) this.#pressed = null;
    if (focused >= 0) this.#drawn?.circles[focused]?.focus({ preventScroll: true });
  }

  /** The place of a circle that can be moved; -1 for anything else. */
  #placeOf(target: EventTarget | null): number {
    const at = this.#drawn?.circles.indexOf(target as SVGCircleElement) ?? -1;
    return this.#drawn?.handles[at] ? at : -1;
  }

  #take(event: PointerEvent): void {
    const at = this.#placeOf(event.target);
    if (at < 0 || event.button !== 0) return;
    event.preventDefault();
    this.#place.setPointerCapture(event.pointerId);
    this.#pressed = null;
    const { handles, perPixel } = this.#drawn!;
    const { value } = handles[at]!;
    this.#held = { at, before: value, value, fromY: event.clientY, perPixel };
  }

  /** By how far the pointer went, not by where it is: scale and page may move beneath it with what it changes. */
  #drag({ clientY }: PointerEvent): void {
    const held = this.#held;
    if (held && this.#drawn) this.#to(held.at, held.before + (clientY - held.fromY) * held.perPixel);
  }

  /** Sends the newest value with the next frame: what was not sent by then nobody has seen. */
  #to(at: number, wanted: number): void {
    const handle = this.#drawn!.handles[at]!;
    const steps = Math.round(wanted / handle.step);
    const value = Number((steps * handle.step).toPrecision(12));
    this.#held!.value = Math.min(handle.max, Math.max(handle.min, value));
    this.#frame ||= requestAnimationFrame(() => {
      this.#frame = 0;
      const now = this.#drawn?.handles[at];
      if (now && this.#held) this.#tools.move(now, this.#held.value);
    });
  }

  #letGo(): void {
    const held = this.#held;
    if (!held) return;
    const handle = this.#drawn?.handles[held.at];
    cancelAnimationFrame(this.#frame);
    this.#frame = 0;
    this.#held = null;
    if (!handle || held.value === held.before) return;
    this.#tools.move(handle, held.value);
    this.#tools.offerUndo(handle, held.before, held.value);
  }

  #key(event: KeyboardEvent): void {
    const direction = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    const at = this.#placeOf(event.target);
    if (direction === undefined || at < 0) {
      this.#pressed = null; // the key may take back what was moved
      return;
    }
    event.preventDefault();
    const handle = this.#drawn!.handles[at]!;
    const before = this.#pressed?.at === at ? this.#pressed.value : handle.value;
    this.#held = { at, before, value: before, fromY: 0, perPixel: 0 };
    this.#to(at, before + direction * handle.step);
    this.#pressed = { at, value: this.#held.value };
    this.#letGo();
  }
}

function drawnHandles(picture: Element, handles: readonly (Handle | null)[]): Drawn | null {
  const svg = picture instanceof SVGSVGElement ? picture : picture.querySelector('svg');
  const circles = [...picture.querySelectorAll<SVGCircleElement>('.handles circle')];
  // Plot hands out its scales on the element that it made.
  const scale = (
    picture as Element & { scale?: (name: string) => { invert?: (y: number) => number } }
  ).scale?.('y');
  const zoom = svg?.getScreenCTM()?.d;
  if (!zoom || !scale?.invert || circles.length !== handles.length) return null;
  return { handles, circles, perPixel: (scale.invert(1) - scale.invert(0)) / zoom };
}

/** A handle is a slider to those who do not see it. */
function dress(circle: SVGCircleElement, { label, value, unit, min, max }: Handle): void {
  const attributes = {
    role: 'slider',
    tabindex: '0',
    'aria-label': label,
    'aria-valuenow': String(value),
    'aria-valuemin': String(min),
    'aria-valuemax': String(max),
    'aria-valuetext': `${value} ${unit}`,
    class: 'handle',
  };
  for (const [name, text] of Object.entries(attributes)) circle.setAttribute(name, text);
}
