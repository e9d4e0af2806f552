export interface Differentiable {
  at(x: number): number;
  slope(x: number): number;
}

/**
 * Where a function takes a given level between two points on either side of it.
 *
 * Model     Newton steps kept inside a shrinking bracket; a step that leaves it or gains too little is a bisection
 * Shape     f(lo) and f(hi) on different sides of the level, or one of them on it; otherwise NaN
 * Stops     when a step is below 4 units in the last place of the ends, at most 200 steps
 * Cost      4 to 6 steps on a smooth curve; allocates nothing
 * Source    the usual safeguard of Newton's method; Brent 1973, Algorithms for Minimization, ch. 4 (from memory)
 *
 * @example
 * bracketedNewton({ at: (x) => x * x, slope: (x) => 2 * x }, 2, 0, 2) // 1.4142135623731
 */
export function bracketedNewton(f: Differentiable, level: number, lo: number, hi: number): number {
  const atLo = f.at(lo) - level;
  const atHi = f.at(hi) - level;
  if (atLo === 0) return lo;
  if (atHi === 0) return hi;
  if (!(atLo < 0 !== atHi < 0)) return NaN;
  const tolerance = 2 * Number.EPSILON * (Math.abs(lo) + Math.abs(hi));
  let below = atLo < 0 ? lo : hi;
  let above = atLo < 0 ? hi : lo;
  let x = lo + (hi - lo) * (atLo / (atLo - atHi));
  let lastStep = hi - lo;
  for (let steps = 0; steps < 200; steps++) {
    const gap = f.at(x) - level;
    if (gap === 0) return x;
    if (gap < 0) below = x;
    else above = x;
    let next = x - gap / f.slope(x);
    const outside = !(next > Math.min(below, above) && next < Math.max(below, above));
    if (outside || Math.abs(next - x) > 0.5 * Math.abs(lastStep)) next = below + 0.5 * (above - below);
    lastStep = next - x;
    x = next;
    if (Math.abs(lastStep) <= tolerance) return x;
  }
  return x;
}
