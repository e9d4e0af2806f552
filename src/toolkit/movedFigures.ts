import { formatChange, withUnit } from '../base/format.ts';
import type { TruthRow } from '../charts/truthChart.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Display } from './display.ts';

/** What a method answered before something was changed and what it answers now, W or km/h; null for no answer. */
export interface MovedFigure {
  method: string;
  was: number | null;
  now: number | null;
}

/** How far a figure moved, as it is shown; null where one of the two is missing. */
export const movedBy = ({ was, now }: MovedFigure): number | null =>
  was === null || now === null ? null : now - was;

/** Less than the last digit that is shown. */
const isStill = (by: number, { axis }: Display) => Math.abs(by) < (axis === 'power' ? 0.05 : 0.005);

/** By how much a figure moved, W or km/h, with its sign; 'stays' for less than the last digit shown. */
export function movedWords(by: number, display: Display): string {
  if (isStill(by, display)) return 'stays';
  return withUnit(formatChange(by, display.axis === 'power' ? 1 : 2), display.unit);
}

/** A dot where the method is now, and a bar from where it was; nothing for a method without an answer now. */
export function movedRow(figure: MovedFigure, display: Display): TruthRow[] {
  const { was, now } = figure;
  if (now === null) return [];
  const { name, claim } = methodById(figure.method);
  const by = movedBy(figure);
  return [
    {
      name,
      claim,
      value: by === null ? 'new' : movedWords(by, display),
      range: '',
      at: now,
      interval: was === null ? null : [Math.min(was, now), Math.max(was, now)],
    },
  ];
}

const nameOf = ({ method }: MovedFigure) => methodById(method).name;

/** How many move, which most, and which have no answer any more. */
export function sayMoved(figures: readonly MovedFigure[], display: Display): string {
  const both = figures.flatMap((figure) => {
    const by = movedBy(figure);
    return by === null ? [] : [{ figure, by }];
  });
  const moved = both
    .filter(({ by }) => !isStill(by, display))
    .toSorted((a, b) => Math.abs(b.by) - Math.abs(a.by));
  const lost = figures.filter(({ was, now }) => was !== null && now === null).map(nameOf);
  const silent = lost.length === 0 ? '' : ` No answer any more: ${lost.join(', ')}.`;
  const [most] = moved;
  if (!most) return `No method moves.${silent}`;
  return `${moved.length} of ${both.length} methods move, ${nameOf(most.figure)} most: ${movedWords(most.by, display)}.${silent}`;
}
