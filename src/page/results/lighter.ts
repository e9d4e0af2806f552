import { pathData, rectangleSteps, type Step, stepsOf, withoutNeedless } from './pathData.ts';

const NAMESPACE = 'http://www.w3.org/2000/svg';

/**
 * A finished picture in fewer letters, for a page that cannot draw it again: what looks alike becomes one path, what all parts
 * of a group say is said by the group, and places keep a tenth of a pixel. It looks the same; what is not known here stays
 * as it is.
 */
export function lighten(svg: Element): void {
  // They show while a pointer rests on a part; the page has the numbers in its tables.
  for (const title of svg.querySelectorAll('title')) title.remove();
  for (const part of svg.querySelectorAll('*')) round(part, OPACITY, 2);
  // Where a group stands adds to where its parts stand, and so do the errors of rounding both.
  for (const group of svg.querySelectorAll('g')) round(group, TRANSFORM, 2);
  for (const parent of [svg, ...svg.querySelectorAll('g')]) joinShapes(parent);
  for (const text of svg.querySelectorAll('text')) placeText(text);
  for (const group of svg.querySelectorAll('g')) sayOnce(group);
  for (const part of [svg, ...svg.querySelectorAll('*:not(g)')]) round(part, PLACE, 1);
}

/** A shape of straight lines, and all that says how it looks except where it is. */
interface Shape {
  element: Element;
  steps: Step[];
  look: string;
  boxes: Box[];
}

/** Left, top, right, bottom, in tenths of a pixel. */
type Box = readonly [number, number, number, number];

/** Clips, hatchings and the marks on lines follow rules of their own. */
const APART = 'defs, clipPath, mask, pattern, marker, symbol, [marker-start], [marker-mid], [marker-end]';

/**
 * Makes one path of shapes that look alike. A shape may be drawn earlier than it was, with one that looks like it, when it
 * touches nothing that was drawn from there on.
 */
function joinShapes(parent: Element): void {
  if (parent.closest(APART)) return;
  const shapes: Shape[] = [];
  let first = 0;
  for (const child of [...parent.children]) {
    const shape = shapeOf(child);
    if (shape) shapes.push(shape);
    // Nothing goes past what has no simple outline.
    if (!shape || !isSimple(shape.steps)) first = shapes.length;
    else if (joined(shape, shapes.slice(first, -1))) {
      shapes.pop();
      child.remove();
    }
  }
  for (const shape of shapes) drawAsPath(shape);
}

/** Adds a shape to the last of the earlier ones that looks like it, if it may. */
function joined({ look, steps, boxes }: Shape, earlier: readonly Shape[]): boolean {
  const at = earlier.findLastIndex((one) => one.look === look);
  if (at < 0) return false;
  if (earlier.slice(at).some((one) => one.boxes.some((box) => touch(box, boxes[0]!)))) return false;
  earlier[at]!.steps.push(...steps);
  earlier[at]!.boxes.push(...boxes);
  return true;
}

const touch = (a: Box, b: Box): boolean => a[0] <= b[2] && b[0] <= a[2] && a[1] <= b[3] && b[1] <= a[3];

/** A straight line or a rectangle: drawn in one path with others, it cannot take away from their filled parts. */
const isSimple = (steps: readonly Step[]): boolean =>
  steps.length === 2 || (steps.length === 5 && steps[4]!.command === 'Z');

const GEOMETRY = new Set(['x', 'y', 'width', 'height', 'x1', 'y1', 'x2', 'y2', 'd', 'points', 'transform']);

function shapeOf(element: Element): Shape | null {
  const move = moveOf(element);
  if (!move || element.childElementCount > 0 || element.matches(APART)) return null;
  const steps = outlineOf(element, move);
  if (!steps) return null;
  const look = [...element.attributes]
    .filter(({ name }) => !GEOMETRY.has(name))
    .map(({ name, value }) => `${name}=${JSON.stringify(value)}`)
    .sort()
    .join(' ');
  return { element, steps, look, boxes: [boxOf(steps)] };
}

/** What a transform moves an element by, right and down; null when it does more. */
function moveOf(element: Element): readonly [number, number] | null {
  const transform = element.getAttribute('transform');
  if (transform === null) return [0, 0];
  const [, right, down] = /^translate\(\s*([-\d.e]+)[\s,]+([-\d.e]+)\s*\)$/.exec(transform) ?? [];
  const move = [Number(right), Number(down)] as const;
  return move.every(Number.isFinite) ? move : null;
}

function outlineOf(element: Element, [right, down]: readonly [number, number]): Step[] | null {
  const numbers = (...names: string[]) => names.map((name) => Number(element.getAttribute(name) ?? 0));
  switch (element.localName) {
    case 'path': {
      const steps = stepsOf(element.getAttribute('d') ?? '', right, down);
      return steps && withoutNeedless(steps);
    }
    case 'polygon': {
      const steps = stepsOf(`M${element.getAttribute('points')}Z`, right, down);
      return steps && withoutNeedless(steps);
    }
    case 'line': {
      const ends = numbers('x1', 'y1', 'x2', 'y2');
      return ends.every(Number.isFinite) ? stepsOf(`M${ends}`, right, down) : null;
    }
    case 'rect': {
      const [x, y, width, height, rounded] = numbers('x', 'y', 'width', 'height', 'rx') as Five;
      // Without an area, a rectangle is not drawn at all; a path would be.
      if (rounded !== 0 || element.hasAttribute('ry') || !(width > 0 && height > 0)) return null;
      return Number.isFinite(x + y) ? rectangleSteps(x + right, y + down, width, height) : null;
    }
    default:
      return null;
  }
}

type Five = [number, number, number, number, number];

function boxOf(steps: readonly Step[]): Box {
  const places = steps.flatMap(({ numbers }) => numbers.slice(-2));
  const right = places.filter((_, i) => i % 2 === 0);
  const down = places.filter((_, i) => i % 2 === 1);
  return [Math.min(...right), Math.min(...down), Math.max(...right), Math.max(...down)];
}

function drawAsPath({ element, steps }: Shape): void {
  const path = document.createElementNS(NAMESPACE, 'path');
  path.setAttribute('d', pathData(steps));
  for (const { name, value } of element.attributes) if (!GEOMETRY.has(name)) path.setAttribute(name, value);
  element.replaceWith(path);
}

/** A text is put where it was moved to; shifts in letter heights become pixels where the size is known. */
function placeText(text: Element): void {
  const move = moveOf(text);
  const size = sizeOf(text);
  if (!move || size === null || text.childElementCount > 0 || text.hasAttribute('dx')) return;
  // A text has a y in pixels and a shift, or one of both.
  const [x, y, shift] = [lengthOf(text, 'x', null), lengthOf(text, 'y', size), lengthOf(text, 'dy', size)];
  if (x === null || y === null || shift === null) return;
  text.setAttribute('x', String(move[0] + x));
  text.setAttribute('y', String(move[1] + y + shift));
  text.removeAttribute('dy');
  text.removeAttribute('transform');
}

/** A length in pixels, 0 if it is not said; null for anything else than pixels or, where it is known, letter heights. */
function lengthOf(element: Element, name: string, size: number | null): number | null {
  const [, number, unit] = /^(-?[\d.]+)(em)?$/.exec(element.getAttribute(name) ?? '0') ?? [];
  if (number === undefined || (unit && size === null)) return null;
  return Number(number) * (unit ? size! : 1);
}

/** Height of the letters in pixels, where the picture itself says it. */
function sizeOf(element: Element): number | null {
  for (let at: Element | null = element; at && at.localName !== 'figure'; at = at.parentElement) {
    const styled = /font-size:\s*([\d.]+)px/.exec(at.getAttribute('style') ?? '')?.[1];
    const size = styled ?? at.getAttribute('font-size');
    if (size !== null) return /^[\d.]+(px)?$/.test(size) ? Number.parseFloat(size) : null;
  }
  return null;
}

/** What parts take over from their group when they say nothing themselves. */
const INHERITED =
  'fill fill-opacity stroke stroke-width stroke-opacity stroke-linecap stroke-linejoin stroke-dasharray font-variant font-size font-weight text-anchor'.split(
    ' ',
  );

/** What all parts of a group say, the group says; the value most of them have. */
function sayOnce(group: Element): void {
  const parts = [...group.children];
  for (const name of INHERITED) {
    const values = parts.map((part) => part.getAttribute(name));
    if (values.length < 2 || values.includes(null)) continue;
    const most = mostFrequent(values as string[]);
    group.setAttribute(name, most);
    for (const part of parts) if (part.getAttribute(name) === most) part.removeAttribute(name);
  }
}

function mostFrequent(values: readonly string[]): string {
  const counts = new Map<string, number>();
  for (const value of values) counts.set(value, (counts.get(value) ?? 0) + 1);
  return [...counts].reduce((most, one) => (one[1] > most[1] ? one : most))[0];
}

/** Attributes that say where something is. */
const PLACE = new Set('x y x1 y1 x2 y2 cx cy dx dy r rx ry width height points transform'.split(' '));
const TRANSFORM = new Set(['transform']);
const OPACITY = new Set(['opacity', 'fill-opacity', 'stroke-opacity']);
const DECIMALS = /\d+\.\d+/g;

function round(element: Element, names: ReadonlySet<string>, digits: number): void {
  for (const { name, value } of [...element.attributes]) {
    // A scale would multiply the error of rounding it, and some places count in letter heights.
    if (!names.has(name) || /scale|matrix|skew|em/.test(value)) continue;
    element.setAttribute(
      name,
      value.replace(DECIMALS, (number) => String(Number(Number(number).toFixed(digits)))),
    );
  }
}
