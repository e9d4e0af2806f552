import { bracketedNewton, type Differentiable } from './bracketedNewton.ts';

const MOST_DEGREE: i32 = 4;
/** Room for a polynomial, and for its roots and the end of the interval. */
const WIDTH: i32 = MOST_DEGREE + 2;

/**
 * Real roots of a polynomial of degree <= 4 on an interval, ascending.
 *
 * Model     degree 1 and 2 in closed form; above, the roots of the derivative cut the interval into pieces on
 *           which the polynomial is monotone, and each piece with a change of sign holds exactly one root
 * Shape     coefficients lowest power first; roots are written to `out`, whose used length is returned
 * Accuracy  a root is right to a few units in the last place of the interval's ends, if it is a simple one
 * Missing   a double root inside a piece is found only when the value there is exactly 0
 * Cost      allocates nothing after construction
 */
export class RealRoots implements Differentiable {
  /** The polynomial and its derivatives, each in the row of its degree. */
  readonly #coefficients: Float64Array = new Float64Array(WIDTH * WIDTH);
  /** Ends of the pieces on which each of them is monotone. */
  readonly #ends: Float64Array = new Float64Array(WIDTH * WIDTH);
  #degree: i32 = 0;

  /** Roots on [lo, hi] of the polynomial with the first `degree` + 1 of these coefficients. */
  find(c: Float64Array, degree: i32, lo: number, hi: number, out: Float64Array): i32 {
    let highest = degree;
    while (highest > 0 && c[highest] === 0) highest--;
    for (let k = 0; k <= highest; k++) this.#coefficients[highest * WIDTH + k] = c[k]!;
    return this.#rootsOf(highest, lo, hi, out, 0);
  }

  /** Roots of the polynomial in the row of this degree, written to `out` from `start` on; returns how many. */
  #rootsOf(degree: i32, lo: number, hi: number, out: Float64Array, start: i32): i32 {
    const c = this.#coefficients;
    const row = degree * WIDTH;
    if (degree === 0) return 0;
    if (degree === 1) return keep(-c[row]! / c[row + 1]!, lo, hi, out, start) - start;
    if (degree === 2) return quadraticRoots(c[row]!, c[row + 1]!, c[row + 2]!, lo, hi, out, start);
    for (let k = 1; k <= degree; k++) {
      const power: number = k;
      c[row - WIDTH + k - 1] = power * c[row + k]!;
    }
    const turns = this.#rootsOf(degree - 1, lo, hi, this.#ends, row);
    this.#ends[row + turns] = hi;
    return this.#rootsOfPieces(degree, lo, turns + 1, out, start);
  }

  #rootsOfPieces(degree: i32, lo: number, pieces: i32, out: Float64Array, start: i32): i32 {
    this.#degree = degree;
    let found = 0;
    let from = lo;
    for (let piece = 0; piece < pieces; piece++) {
      const to = this.#ends[degree * WIDTH + piece]!;
      const root = bracketedNewton<RealRoots>(this, 0, from, to);
      if (root >= lo && (found === 0 || root > out[start + found - 1]!)) {
        out[start + found] = root;
        found++;
      }
      from = to;
    }
    return found;
  }

  /** Value of the polynomial whose roots are being looked for. */
  at(x: number): number {
    const row = this.#degree * WIDTH;
    let sum: number = 0;
    for (let k = this.#degree; k >= 0; k--) sum = sum * x + this.#coefficients[row + k]!;
    return sum;
  }

  slope(x: number): number {
    const row = this.#degree * WIDTH;
    let sum: number = 0;
    for (let k = this.#degree; k >= 1; k--) {
      const power: number = k;
      sum = sum * x + power * this.#coefficients[row + k]!;
    }
    return sum;
  }
}

function quadraticRoots(
  constant: number,
  linear: number,
  square: number,
  lo: number,
  hi: number,
  out: Float64Array,
  start: i32,
): i32 {
  const discriminant = linear * linear - 4 * square * constant;
  if (!(discriminant >= 0)) return 0;
  // The form without cancellation: one root from q, the other from Vieta's product.
  const sign: number = linear < 0 ? -1 : 1;
  const q = -0.5 * (linear + sign * Math.sqrt(discriminant));
  if (q === 0) return keep(0, lo, hi, out, start) - start;
  const first = q / square;
  const second = constant / q;
  const found = keep(Math.min(first, second), lo, hi, out, start);
  return (first === second ? found : keep(Math.max(first, second), lo, hi, out, found)) - start;
}

/** Write a root that lies in the interval to this place; returns the next free one. */
function keep(root: number, lo: number, hi: number, out: Float64Array, place: i32): i32 {
  if (!(root >= lo && root <= hi)) return place;
  out[place] = root;
  return place + 1;
}
