import type * as PlotModule from '@observablehq/plot';
import type { Construction, Mark, Place } from '../physiology/construction.ts';
import { SIGNS } from './pictureKey.ts';

const SVG = 'http://www.w3.org/2000/svg';

/** Edges of the plotting area, px from the top left corner of the picture. */
export interface Box {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/**
 * The part of a line that lies in a box, in pixels; null when none does. (Liang & Barsky 1984, ACM Trans Graph 3:1–22,
 * from memory.) Cut by reckoning and not by a clip path, whose id would have to be unique in the page.
 */
export function within(from: Place, to: Place, { left, right, top, bottom }: Box): [Place, Place] | null {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  let [enter, leave] = [0, 1];
  const sides = [
    [-dx, from[0] - left],
    [dx, right - from[0]],
    [-dy, from[1] - top],
    [dy, bottom - from[1]],
  ] as const;
  for (const [speed, room] of sides) {
    if (speed === 0 && room < 0) return null;
    if (speed < 0) enter = Math.max(enter, room / speed);
    if (speed > 0) leave = Math.min(leave, room / speed);
  }
  if (enter > leave) return null;
  const at = (t: number): Place => [from[0] + t * dx, from[1] + t * dy];
  return [at(enter), at(leave)];
}

/** The foot of the perpendicular from a place to a line. */
export function footOn(from: Place, [a, b]: readonly [Place, Place]): Place {
  const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
  const share = ((from[0] - a[0]) * dx + (from[1] - a[1]) * dy) / (dx * dx + dy * dy);
  return [a[0] + share * dx, a[1] + share * dy];
}

/** Levels, uprights, spans and the lines of a construction, cut to the picture. */
export function constructionLines({ marks }: Construction, colour: string): PlotModule.RenderFunction {
  return (_index, scales, _values, dimensions, { document }) => {
    const { width, height, marginLeft, marginRight, marginTop, marginBottom } = dimensions;
    const box = {
      left: marginLeft,
      right: width - marginRight,
      top: marginTop,
      bottom: height - marginBottom,
    };
    const x = scales.x as (value: number) => number;
    const y = scales.y as (value: number) => number;
    const place = ([a, b]: Place): Place => [x(a), y(b)];
    const group = document.createElementNS(SVG, 'g');
    for (const mark of marks) {
      const drawn = shapeOf(mark, box, place);
      if (drawn === null) continue;
      const shape = document.createElementNS(SVG, drawn.tag);
      for (const [name, value] of Object.entries({ ...drawn.attributes, ...SIGNS[drawn.sign](colour) }))
        shape.setAttribute(name, String(value));
      group.append(shape);
    }
    return group as SVGElement;
  };
}

interface Shape {
  tag: 'line' | 'rect';
  sign: keyof typeof SIGNS;
  attributes: Record<string, number>;
}

function shapeOf(mark: Mark, box: Box, place: (at: Place) => Place): Shape | null {
  switch (mark.kind) {
    case 'level': {
      const y = place([1, mark.y])[1];
      return lineShape('level', [box.left, y], [box.right, y], box);
    }
    case 'upright': {
      const x = place([mark.x, 1])[0];
      return lineShape('upright', [x, box.top], [x, box.bottom], box);
    }
    case 'line':
      return lineShape(mark.role, place(mark.from), place(mark.to), box);
    case 'drop': {
      const from = place(mark.from);
      return lineShape('drop', from, footOn(from, [place(mark.onto[0]), place(mark.onto[1])]), box);
    }
    case 'span': {
      const [from, to] = [place([mark.from, 1])[0], place([mark.to, 1])[0]];
      const attributes = { x: from, width: to - from, y: box.top, height: box.bottom - box.top };
      return { tag: 'rect', sign: 'span', attributes };
    }
    default:
      return null;
  }
}

function lineShape(sign: Shape['sign'], from: Place, to: Place, box: Box): Shape | null {
  const inside = within(from, to, box);
  if (inside === null) return null;
  const [[x1, y1], [x2, y2]] = inside;
  return { tag: 'line', sign, attributes: { x1, y1, x2, y2 } };
}
