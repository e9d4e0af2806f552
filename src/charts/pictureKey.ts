import type * as PlotModule from '@observablehq/plot';
import { COLOUR, isNarrow } from './house.ts';

type Look = Record<string, string | number>;

/** How each kind of line is drawn, in the picture and in its key: told apart by dashes and weight, not by colour. */
export const SIGNS = {
  level: (colour) => ({ stroke: colour, 'stroke-dasharray': '6 3' }),
  upright: (colour) => ({ stroke: colour, 'stroke-dasharray': '2 3' }),
  chord: (colour) => ({ stroke: colour, 'stroke-width': 1.6 }),
  tangent: (colour) => ({ stroke: colour, 'stroke-width': 1.4, 'stroke-dasharray': '9 3' }),
  piece: (colour) => ({ stroke: colour, 'stroke-width': 2.2 }),
  bisector: (colour) => ({ stroke: colour, 'stroke-width': 1.4, 'stroke-dasharray': '9 3 2 3' }),
  rise: (colour) => ({ stroke: colour, 'stroke-width': 3.2 }),
  drop: (colour) => ({ stroke: colour, 'stroke-width': 2, 'stroke-dasharray': '2 2' }),
  span: (colour) => ({ fill: colour, 'fill-opacity': 0.14 }),
  curve: () => ({ stroke: COLOUR.ink, 'stroke-width': 1.8 }),
  interval: (colour) => ({ stroke: colour, 'stroke-width': 5, 'stroke-opacity': 0.5 }),
} satisfies Record<string, (colour: string) => Look>;

/** A sign of the key and what it stands for. */
export interface KeyEntry {
  sign: keyof typeof SIGNS | 'readings' | 'anchor' | 'circle' | 'diamond';
  text: string;
  /** Of its own, where the picture has marks of several colours. */
  colour?: string;
}

interface PlacedEntry extends KeyEntry {
  x: number;
  y: number;
}

interface KeyLayout {
  entries: PlacedEntry[];
  height: number;
}

const ROW = 19;
const SAMPLE = 26;
const GAP = 18;
/** Width of a letter: a little above the mean, so that entries never touch. */
const letter = (width: number) => (isNarrow(width) ? 6.1 : 6.6);

/** Entries side by side from the left, as many to a row as the width holds. */
export function layKey(entries: readonly KeyEntry[], width: number): KeyLayout {
  let [x, y] = [2, ROW / 2];
  const placed = entries.map((entry) => {
    const needed = SAMPLE + 6 + letter(width) * entry.text.length;
    if (x > 2 && x + needed > width) [x, y] = [2, y + ROW];
    const at = { ...entry, x, y };
    x += needed + GAP;
    return at;
  });
  return { entries: placed, height: y + ROW / 2 };
}

const SVG = 'http://www.w3.org/2000/svg';

/** The key at the top of a picture: a sample of each kind of mark and what it stands for. */
export function keyMark({ entries }: KeyLayout, colour: string): PlotModule.RenderFunction {
  return (_index, _scales, _values, _dimensions, { document }) => {
    const group = document.createElementNS(SVG, 'g');
    group.setAttribute('class', 'key');
    const add = (tag: string, look: Look) => {
      const element = document.createElementNS(SVG, tag);
      for (const [name, value] of Object.entries(look)) element.setAttribute(name, String(value));
      group.append(element);
      return element;
    };
    for (const entry of entries) {
      const { x, y, text } = entry;
      const { tag, look } = sampleOf(entry, entry.colour ?? colour);
      add(tag, look);
      add('text', {
        x: x + SAMPLE + 6,
        y,
        dy: '0.32em',
        'text-anchor': 'start',
        fill: COLOUR.ink,
      }).textContent = text;
    }
    return group as SVGElement;
  };
}

function sampleOf({ sign, x, y }: PlacedEntry, colour: string): { tag: string; look: Look } {
  const [cx, open] = [x + SAMPLE / 2, { fill: COLOUR.paper, 'stroke-width': 1.6 }];
  switch (sign) {
    case 'readings':
      return { tag: 'circle', look: { cx, cy: y, r: 3.5, ...open, stroke: COLOUR.ink } };
    case 'anchor':
      return { tag: 'rect', look: { x: cx - 3.5, y: y - 3.5, width: 7, height: 7, ...open, stroke: colour } };
    case 'circle':
      return { tag: 'circle', look: { cx, cy: y, r: 5, fill: colour } };
    case 'diamond':
      return { tag: 'path', look: { d: `M${cx},${y - 7}l5,7l-5,7l-5,-7z`, fill: colour } };
    case 'span':
      return { tag: 'rect', look: { x, y: y - 6, width: SAMPLE, height: 12, ...SIGNS.span(colour) } };
    default:
      return { tag: 'line', look: { x1: x, x2: x + SAMPLE, y1: y, y2: y, ...SIGNS[sign](colour) } };
  }
}
