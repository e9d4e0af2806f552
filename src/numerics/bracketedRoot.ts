const MOST = 200;

/**
 * Where a function is zero between two points at which it has different signs.
 *
 * Model     false position; the end that stays gets less weight each time (Anderson & Björck), so that both close in;
 *           a halving where that is slow
 * Shape     f(lo) and f(hi) of different signs, or one of them 0; otherwise NaN
 * Stops     when the bracket is within `tolerance`, or f is 0, at most 200 steps
 * Cost      some 10 evaluations on a smooth function
 * Source    Anderson & Björck 1973, BIT 13:253–264 (from memory)
 *
 * @example
 * bracketedRoot((x) => x * x - 2, 0, 2) // 1.4142135623731
 */
export function bracketedRoot(
  f: (x: number) => number,
  lo: number,
  hi: number,
  { tolerance = 1e-12 * Math.max(Math.abs(lo), Math.abs(hi)) }: { tolerance?: number } = {},
): number {
  let [a, atA, b, atB] = [lo, f(lo), hi, f(hi)];
  if (atA === 0) return a;
  if (atB === 0) return b;
  if (!(atA < 0 !== atB < 0)) return Number.NaN;
  let width = Math.abs(b - a);
  for (let steps = 1; steps < MOST && Math.abs(b - a) > tolerance; steps++) {
    // False position is slow where the function is all but flat on one side: halve what three steps did not.
    const isSlow = steps % 3 === 0 && Math.abs(b - a) > width / 2;
    if (steps % 3 === 0) width = Math.abs(b - a);
    const x = isSlow ? (a + b) / 2 : b - (atB * (b - a)) / (atB - atA);
    const at = f(x);
    if (at === 0 || x === b) return x;
    if (at < 0 !== atB < 0) [a, atA] = [b, atB];
    else atA *= at / atB < 1 ? 1 - at / atB : 0.5;
    [b, atB] = [x, at];
  }
  return b;
}
