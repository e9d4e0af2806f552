import { minimise } from '../../numerics/minimise.ts';

/**
 * Where a function of one variable is least on [lo, hi] when it may have several valleys: the best of an even grid, then
 * the valley around it.
 *
 * @example
 * profileMinimum((x) => (x * x - 4) ** 2 + x, -5, 5, 20).x // -2.03
 */
export function profileMinimum(
  f: (x: number) => number,
  lo: number,
  hi: number,
  steps: number,
): { x: number; value: number } {
  const step = (hi - lo) / steps;
  let best = lo;
  let least = Number.POSITIVE_INFINITY;
  for (let k = 0; k <= steps; k++) {
    const value = f(lo + k * step);
    if (value < least) [best, least] = [lo + k * step, value];
  }
  const found = minimise(f, Math.max(lo, best - step), Math.min(hi, best + step), { tolerance: 1e-12 });
  return found.value <= least ? found : { x: best, value: least };
}
