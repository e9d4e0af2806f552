import type * as PlotModule from '@observablehq/plot';

interface Rectangle {
  left: number;
  right: number;
  top: number;
  bottom: number;
}

/**
 * Diagonal lines over a rectangle as one path. Drawn as lines rather than as an SVG pattern: a pattern needs an
 * id that is unique in the page, and printers and sanitisers drop it.
 */
export function hatchPath({ left, right, top, bottom }: Rectangle, spacing = 6): string {
  const height = bottom - top;
  const parts: string[] = [];
  // Lines rise to the right; multiples of the spacing, so that neighbouring rectangles continue each other.
  for (let foot = Math.ceil((left - height) / spacing) * spacing; foot < right; foot += spacing) {
    const from = Math.max(foot, left);
    const to = Math.min(foot + height, right);
    if (to <= from) continue;
    parts.push(
      `M${from.toFixed(1)},${(bottom - (from - foot)).toFixed(1)}L${to.toFixed(1)},${(bottom - (to - foot)).toFixed(1)}`,
    );
  }
  return parts.join('');
}

/** Hatched ranges of the x axis between two heights in pixels, as a Plot mark. */
export function hatchX(
  ranges: readonly { from: number; to: number }[],
  { top, bottom, colour }: { top: number; bottom: number; colour: string },
): PlotModule.RenderFunction {
  return (_index, scales, _values, _dimensions, context) => {
    const x = scales.x as (value: number) => number;
    const group = context.document.createElementNS('http://www.w3.org/2000/svg', 'g');
    group.setAttribute('class', 'hatch');
    for (const range of ranges) {
      const path = context.document.createElementNS('http://www.w3.org/2000/svg', 'path');
      path.setAttribute('d', hatchPath({ left: x(range.from), right: x(range.to), top, bottom }));
      path.setAttribute('stroke', colour);
      path.setAttribute('fill', 'none');
      group.append(path);
    }
    return group as SVGElement;
  };
}
