/** Share of an interval that a golden-section step cuts off: (3 − √5)/2. */
const GOLDEN = 0.5 * (3 - Math.sqrt(5));
/** Steps closer than this share of x only compare rounding (√ of the double's precision). */
const FINEST = 1.5e-8;

/**
 * Where a function of one variable is least between two points.
 *
 * Model     Brent's method: parabolas through the best three points, golden sections where they do not help
 * Shape     one minimum in [lo, hi]; with several, one of them is found
 * Stops     when the bracket is within 2·tolerance, at best 1.5e-8 of x, at most 200 evaluations
 * Source    Brent 1973, Algorithms for Minimization without Derivatives, ch. 5 (from memory)
 *
 * @example
 * minimise((x) => (x - 2) ** 2, 0, 5).x // 2
 */
export function minimise(
  f: (x: number) => number,
  lo: number,
  hi: number,
  { tolerance = 1e-10 }: { tolerance?: number } = {},
): { x: number; value: number } {
  let x = lo + GOLDEN * (hi - lo);
  let value = f(x);
  let [second, secondValue, third, thirdValue] = [x, value, x, value];
  let step = 0;
  let earlier = 0;
  for (let evaluations = 1; evaluations < 200; evaluations++) {
    const middle = 0.5 * (lo + hi);
    const least = FINEST * Math.abs(x) + tolerance / 3;
    if (Math.abs(x - middle) <= 2 * least - 0.5 * (hi - lo)) break;
    const jump = parabolaStep(x, value, second, secondValue, third, thirdValue);
    const fits = Math.abs(jump) < 0.5 * Math.abs(earlier) && x + jump > lo && x + jump < hi;
    earlier = fits ? step : (x < middle ? hi : lo) - x;
    step = fits ? jump : GOLDEN * earlier;
    if (fits && (x + step - lo < 2 * least || hi - x - step < 2 * least)) step = x < middle ? least : -least;
    if (Math.abs(step) < least) step = step < 0 ? -least : least;
    const tried = x + step;
    const triedValue = f(tried);
    if (triedValue <= value) {
      if (tried < x) hi = x;
      else lo = x;
      [third, thirdValue, second, secondValue] = [second, secondValue, x, value];
      [x, value] = [tried, triedValue];
      continue;
    }
    if (tried < x) lo = tried;
    else hi = tried;
    if (triedValue <= secondValue || second === x) {
      [third, thirdValue, second, secondValue] = [second, secondValue, tried, triedValue];
    } else if (triedValue <= thirdValue || third === x || third === second) {
      [third, thirdValue] = [tried, triedValue];
    }
  }
  return { x, value };
}

/** From x to the vertex of the parabola through three points; NaN when they have none. */
function parabolaStep(x: number, fx: number, a: number, fa: number, b: number, fb: number): number {
  const left = (x - a) * (fx - fb);
  const right = (x - b) * (fx - fa);
  const denominator = 2 * (left - right);
  return denominator === 0 ? NaN : -((x - a) * left - (x - b) * right) / denominator;
}
