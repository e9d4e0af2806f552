import { bracketedNewton } from './bracketedNewton.ts';
import { Polynomial } from './polynomial.ts';

// One scratch polynomial and one list of turning points per degree, so that no call allocates.
const work = [0, 1, 2, 3, 4].map((degree) => new Polynomial(new Float64Array(degree + 1)));
const turns = [0, 1, 2, 3, 4].map(() => new Float64Array(6));

/**
 * Real roots of a polynomial of degree <= 4 on an interval, ascending.
 *
 * Model     degree 1 and 2 in closed form; above, the roots of the derivative cut the interval into pieces on
 *           which the polynomial is monotone, and each piece with a change of sign holds exactly one root
 * Shape     coefficients lowest power first; roots are written to `out`, whose used length is returned
 * Accuracy  a root is right to a few units in the last place of the interval's ends, if it is a simple one
 * Missing   a double root inside a piece is found only when the value there is exactly 0
 * Cost      allocates nothing
 *
 * @example
 * realRootsOf([-6, 11, -6, 1], 0, 10) // [1, 2, 3]
 */
export function realRoots(c: ArrayLike<number>, lo: number, hi: number, out: Float64Array): number {
  let degree = c.length - 1;
  while (degree > 0 && c[degree] === 0) degree--;
  if (degree === 0) return 0;
  if (degree === 1) return keep(-c[0]! / c[1]!, lo, hi, out, 0);
  if (degree === 2) return quadraticRoots(c, lo, hi, out);
  const f = work[degree]!;
  for (let k = 0; k <= degree; k++) f.coefficients[k] = c[k]!;
  const derivative = work[degree - 1]!.coefficients;
  for (let k = 1; k <= degree; k++) derivative[k - 1] = k * c[k]!;
  const pieces = turns[degree]!;
  const count = realRoots(derivative, lo, hi, pieces);
  pieces[count] = hi;
  return rootsOfPieces(f, lo, pieces, count + 1, out);
}

function rootsOfPieces(
  f: Polynomial,
  lo: number,
  ends: Float64Array,
  pieces: number,
  out: Float64Array,
): number {
  let found = 0;
  let from = lo;
  for (let piece = 0; piece < pieces; piece++) {
    const to = ends[piece]!;
    const root = bracketedNewton(f, 0, from, to);
    if (root >= lo && (found === 0 || root > out[found - 1]!)) out[found++] = root;
    from = to;
  }
  return found;
}

function quadraticRoots(c: ArrayLike<number>, lo: number, hi: number, out: Float64Array): number {
  const constant = c[0]!;
  const linear = c[1]!;
  const square = c[2]!;
  const discriminant = linear * linear - 4 * square * constant;
  if (!(discriminant >= 0)) return 0;
  // The form without cancellation: one root from q, the other from Vieta's product.
  const q = -0.5 * (linear + (linear < 0 ? -1 : 1) * Math.sqrt(discriminant));
  if (q === 0) return keep(0, lo, hi, out, 0);
  const first = q / square;
  const second = constant / q;
  const found = keep(Math.min(first, second), lo, hi, out, 0);
  return first === second ? found : keep(Math.max(first, second), lo, hi, out, found);
}

function keep(root: number, lo: number, hi: number, out: Float64Array, found: number): number {
  if (!(root >= lo && root <= hi)) return found;
  out[found] = root;
  return found + 1;
}

/** The roots as a new array, for callers outside a loop. */
export function realRootsOf(c: ArrayLike<number>, lo: number, hi: number): number[] {
  const out = new Float64Array(6);
  return [...out.subarray(0, realRoots(c, lo, hi, out))];
}
