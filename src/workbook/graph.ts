/** Names of the cells each cell imports, in the order of the workbook. Names may be of cells that do not exist. */
export type Uses = ReadonlyMap<string, readonly string[]>;

/** All cells, each after those it uses; otherwise in the order of the workbook. */
export function runOrder(uses: Uses): string[] {
  const placed = new Set<string>();
  const order: string[] = [];
  const place = (name: string) => {
    if (placed.has(name) || !uses.has(name)) return;
    placed.add(name);
    for (const used of uses.get(name)!) place(used);
    order.push(name);
  };
  for (const name of uses.keys()) place(name);
  return order;
}

/** Names of the cells that import each cell, or what cell it would be, in the order of the workbook. */
export function readersOf(uses: Uses): Uses {
  const readers = new Map<string, string[]>();
  for (const [name, used] of uses) {
    for (const other of used) {
      const known = readers.get(other);
      if (known) known.push(name);
      else readers.set(other, [name]);
    }
  }
  return readers;
}

/**
 * All that is reached from `names` in one step or more: what they use, or by `readersOf` what uses them. They themselves
 * are not, unless they are in a circle.
 */
export function reachedFrom(steps: Uses, names: Iterable<string>): Set<string> {
  const found = new Set<string>();
  const goOn = (name: string) => {
    for (const next of steps.get(name) ?? []) {
      if (found.has(next)) continue;
      found.add(next);
      goOn(next);
    }
  };
  for (const name of names) goOn(name);
  return found;
}

/**
 * For each cell in a circle the shortest way round, such as [a.ts, b.ts, a.ts]: each uses the next. It starts with
 * the member that comes first in the workbook, so that all members of a simple circle tell the same path.
 */
export function circles(uses: Uses): Map<string, string[]> {
  const found = new Map<string, string[]>();
  for (const name of uses.keys()) {
    const path = wayBack(uses, name);
    if (path) found.set(name, startingFirst(path, [...uses.keys()]));
  }
  return found;
}

function wayBack(uses: Uses, name: string): string[] | null {
  const cameFrom = new Map<string, string>();
  let edge = [name];
  while (edge.length > 0) {
    const next: string[] = [];
    for (const from of edge) {
      for (const to of uses.get(from) ?? []) {
        if (cameFrom.has(to)) continue;
        cameFrom.set(to, from);
        if (to === name) return pathTo(name, cameFrom);
        next.push(to);
      }
    }
    edge = next;
  }
  return null;
}

/** The members in order, the first of them not repeated at the end. */
function pathTo(name: string, cameFrom: Map<string, string>): string[] {
  const path = [cameFrom.get(name)!];
  while (path[0] !== name) path.unshift(cameFrom.get(path[0]!)!);
  return path;
}

function startingFirst(path: string[], order: string[]): string[] {
  const first = path.reduce((a, b) => (order.indexOf(b) < order.indexOf(a) ? b : a));
  const at = path.indexOf(first);
  return [...path.slice(at), ...path.slice(0, at), first];
}
