import type { CellState } from '../workbook/engineTypes.ts';

type Node = Pick<CellState, 'name' | 'imports'>;

/** Names of the cells that read each cell themselves, in page order. */
export function readersIn(cells: readonly Node[]): ReadonlyMap<string, readonly string[]> {
  const readers = new Map<string, string[]>(cells.map((cell) => [cell.name, []]));
  for (const { name, imports } of cells) for (const read of new Set(imports)) readers.get(read)?.push(name);
  return readers;
}

function reach(start: string, next: (name: string) => readonly string[]): Set<string> {
  const seen = new Set<string>();
  const open = [start];
  for (let name = open.pop(); name !== undefined; name = open.pop()) {
    for (const neighbour of next(name)) {
      if (seen.has(neighbour)) continue;
      seen.add(neighbour);
      open.push(neighbour);
    }
  }
  return seen;
}

/** All cells above and below `name` in the flow of values: what it is made from, and what is made from it. */
export function pathThrough(cells: readonly Node[], name: string): { up: Set<string>; down: Set<string> } {
  const imports = new Map(cells.map((cell) => [cell.name, cell.imports]));
  const readers = readersIn(cells);
  return {
    up: reach(name, (one) => (imports.get(one) ?? []).filter((other) => imports.has(other))),
    down: reach(name, (one) => readers.get(one) ?? []),
  };
}

/**
 * The cell whose fault holds `cell` up: the first of what it reads that is not in order itself; null when that one
 * is not there at all.
 */
export function heldUpBy(states: ReadonlyMap<string, CellState>, cell: CellState): string | null {
  if (cell.phase !== 'waiting') return null;
  const upset = cell.imports.find((name) => {
    const phase = states.get(name)?.phase;
    return phase === undefined || phase === 'failed' || phase === 'waiting';
  });
  return upset !== undefined && states.has(upset) ? upset : null;
}
