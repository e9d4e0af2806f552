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

/** `names` and all that these directly or indirectly use. */
export function withUpstream(uses: Uses, names: Iterable<string>): Set<string> {
  const found = new Set<string>();
  const add = (name: string) => {
    if (found.has(name)) return;
    found.add(name);
    for (const used of uses.get(name) ?? []) add(used);
  };
  for (const name of names) add(name);
  return found;
}

/** Names of all cells that directly or indirectly use one of `names`, without these unless they are in a circle. */
export function downstreamOf(uses: Uses, names: readonly string[]): Set<string> {
  const found = new Set<string>();
  let edge: readonly string[] = names;
  while (edge.length > 0) {
    const readers = [...uses].filter(
      ([name, used]) => !found.has(name) && used.some((u) => edge.includes(u)),
    );
    edge = readers.map(([name]) => name);
    for (const name of edge) found.add(name);
  }
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
