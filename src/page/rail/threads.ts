import type { CellState } from '../../workbook/engineTypes.ts';
import { readersIn } from '../graph.ts';

/** One line of the rail: from a cell down (or up) to all that read it, in a lane of its own where it meets others. */
export interface Thread {
  from: string;
  to: readonly string[];
  /** 0 is next to the cells. */
  lane: number;
}

interface Span {
  thread: Omit<Thread, 'lane'>;
  top: number;
  bottom: number;
}

/** Threads between the cells, short ones in the inner lanes, so that lines run side by side and seldom cross. */
export function threads(cells: readonly Pick<CellState, 'name' | 'imports'>[]): Thread[] {
  const places = new Map(cells.map((cell, i) => [cell.name, i]));
  const readers = readersIn(cells);
  const spans = cells.flatMap((cell, i): Span[] => {
    const to = readers.get(cell.name)!;
    if (to.length === 0) return [];
    const all = [i, ...to.map((name) => places.get(name)!)];
    return [{ thread: { from: cell.name, to }, top: Math.min(...all), bottom: Math.max(...all) }];
  });
  const byLength = spans.toSorted((a, b) => a.bottom - a.top - (b.bottom - b.top));
  const lanes: Span[][] = [];
  return byLength.map((span) => {
    const free = lanes.findIndex((lane) =>
      lane.every((other) => other.bottom < span.top || other.top > span.bottom),
    );
    const lane = free === -1 ? lanes.push([]) - 1 : free;
    lanes[lane]!.push(span);
    return { ...span.thread, lane };
  });
}
