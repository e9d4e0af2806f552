/** Number of single-character changes (insert, delete, replace) from one word to the other. */
function distance(a: string, b: string): number {
  let above = Array.from({ length: b.length + 1 }, (_, i) => i);
  for (let i = 1; i <= a.length; i++) {
    const row = [i];
    for (let j = 1; j <= b.length; j++) {
      const replaced = above[j - 1]! + (a[i - 1] === b[j - 1] ? 0 : 1);
      row.push(Math.min(replaced, above[j]! + 1, row[j - 1]! + 1));
    }
    above = row;
  }
  return above[b.length]!;
}

const farness = (a: string, b: string) => distance(a.toLowerCase(), b.toLowerCase());

/** The candidates, those spelled most like `name` first. */
export function nearestFirst(name: string, candidates: readonly string[]): string[] {
  const far = new Map(candidates.map((c) => [c, farness(name, c)]));
  return [...far.keys()].sort((a, b) => far.get(a)! - far.get(b)!);
}

/** Close enough that one was probably meant as the other. */
export const looksLike = (a: string, b: string): boolean =>
  farness(a, b) <= Math.max(1, Math.floor(a.length / 3));

/** `a, b, c`: at most eight names, nearest first; 'nothing' for none. */
export function listed(name: string, candidates: readonly string[]): string {
  const names = nearestFirst(name, candidates);
  if (names.length === 0) return 'nothing';
  return names.slice(0, 8).join(', ') + (names.length > 8 ? ', …' : '');
}
