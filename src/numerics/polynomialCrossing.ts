/** A step of this size is the last: it leaves an error of about its cube times the square of the bend over the slope. */
const LAST_STEP = 1e-5;
/** A halving of the bracket leaves an error of its own size. */
const LAST_HALVING = 1e-12;

/**
 * Where a polynomial of degree 4 or less takes a level between two points, given that it is monotone there: the inner loop
 * of every draw, so its coefficients are held in local variables and nothing is called.
 *
 * Model     Halley steps kept inside a shrinking bracket, as Newton's are in bracketedNewton.ts
 * Shape     five coefficients, lowest power first; |lo|, |hi| of the order of 1
 * Returns   NaN when the level is not between the values at both ends
 * Cost      about 3 steps of some 30 operations; allocates nothing
 * Source    Halley 1694 in the form of Traub 1964, Iterative Methods for the Solution of Equations (from memory)
 *
 * @example
 * polynomialCrossing(Float64Array.of(0, 0, 1, 0, 0), 2, 0, 2).toFixed(9) // '1.414213562'
 */
export function polynomialCrossing(c: Float64Array, level: number, lo: number, hi: number): number {
  const atLo = c[0]! + lo * (c[1]! + lo * (c[2]! + lo * (c[3]! + lo * c[4]!)));
  const atHi = c[0]! + hi * (c[1]! + hi * (c[2]! + hi * (c[3]! + hi * c[4]!)));
  return crossingBetween(c, level, lo, atLo, hi, atHi);
}

/** The same where the values at both ends are known. */
export function crossingBetween(
  c: Float64Array,
  level: number,
  lo: number,
  valueLo: number,
  hi: number,
  valueHi: number,
): number {
  const c0 = c[0]! - level;
  const c1 = c[1]!;
  const c2 = c[2]!;
  const c3 = c[3]!;
  const c4 = c[4]!;
  const atLo = valueLo - level;
  const atHi = valueHi - level;
  if (atLo === 0) return lo;
  if (atHi === 0) return hi;
  if (!(atLo < 0 !== atHi < 0)) return NaN;
  let below = atLo < 0 ? lo : hi;
  let above = atLo < 0 ? hi : lo;
  let x =
    lo + (hi - lo) * parabolaRoot(atLo, (hi - lo) * (c1 + lo * (2 * c2 + lo * (3 * c3 + lo * 4 * c4))), atHi);
  let lastStep = hi - lo;
  for (let steps = 0; steps < 200; steps++) {
    const square = x * x;
    const gap = c0 + x * c1 + square * (c2 + x * c3 + square * c4);
    if (gap === 0) return x;
    if (gap < 0) below = x;
    else above = x;
    const slope = c1 + x * (2 * c2) + square * (3 * c3 + x * (4 * c4));
    const halfBend = c2 + x * (3 * c3) + square * (6 * c4);
    let step = (-gap * slope) / (slope * slope - gap * halfBend);
    const next = x + step;
    const inside = (next - below) * (next - above) <= 0;
    const halves = !inside || Math.abs(step) > 0.5 * Math.abs(lastStep);
    if (halves) step = below + 0.5 * (above - below) - x;
    x += step;
    if (Math.abs(step) <= (halves ? LAST_HALVING : LAST_STEP)) return x;
    lastStep = step;
  }
  return x;
}

/**
 * Where a parabola of this value and slope at 0 and this value at 1 is 0: its turning point often lies at one end of the
 * piece, where a straight line would be a poor guess.
 */
function parabolaRoot(at0: number, slope0: number, at1: number): number {
  const square = at1 - at0 - slope0;
  const discriminant = slope0 * slope0 - 4 * square * at0;
  const root = (-2 * at0) / (slope0 + Math.sign(at1 - at0) * Math.sqrt(discriminant));
  return root > 0 && root < 1 ? root : at0 / (at0 - at1);
}
