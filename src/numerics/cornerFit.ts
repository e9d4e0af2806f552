/**
 * Weighted least squares of a continuous line of straight pieces with given corners.
 *
 * The unknowns are the values at the corners; a reading between two corners weighs only on those two, so the
 * normal equations have three diagonals and are well conditioned. Allocates nothing after construction.
 */
export class CornerFit {
  /** Fitted values at the corners: first point, breakpoints, last point. */
  readonly values: Float64Array;
  readonly #x: Float64Array;
  readonly #weights: Float64Array;
  readonly #corners: Float64Array;
  readonly #diagonal: Float64Array;
  readonly #beside: Float64Array;

  constructor(x: Float64Array, corners: i32, weights: Float64Array) {
    this.#x = x;
    this.#weights = weights;
    this.values = new Float64Array(corners);
    this.#corners = new Float64Array(corners);
    this.#diagonal = new Float64Array(corners);
    this.#beside = new Float64Array(corners);
    this.#corners[0] = x[0]!;
    this.#corners[corners - 1] = x[x.length - 1]!;
    for (let j = 0; j < corners; j++) this.values[j] = NaN;
  }

  /** Fit with these breakpoints. */
  fit(breakpoints: Float64Array, y: Float64Array): void {
    for (let j = 0; j < breakpoints.length; j++) this.#corners[j + 1] = breakpoints[j]!;
    this.#assemble(y);
    this.#solve();
  }

  /** The first point that lies beyond a piece; the last piece takes all that are left. */
  #endOf(piece: i32, from: i32): i32 {
    const x = this.#x;
    if (piece === this.#corners.length - 2) return x.length;
    const right = this.#corners[piece + 1]!;
    let end = from;
    while (x[end]! < right) end++;
    return end;
  }

  #assemble(y: Float64Array): void {
    const x = this.#x;
    const weights = this.#weights;
    const last = this.#corners.length - 1;
    // What the piece before has given to the corner both share.
    let diagonal: number = 0;
    let value: number = 0;
    for (let piece = 0, i = 0; piece < last; piece++) {
      const from = this.#corners[piece]!;
      const perWidth = 1 / (this.#corners[piece + 1]! - from);
      let beside: number = 0;
      let nextDiagonal: number = 0;
      let nextValue: number = 0;
      for (const end = this.#endOf(piece, i); i < end; i++) {
        const right = (x[i]! - from) * perWidth;
        const left = 1 - right;
        const weightedLeft = weights[i]! * left;
        const weightedRight = weights[i]! * right;
        diagonal += weightedLeft * left;
        beside += weightedLeft * right;
        nextDiagonal += weightedRight * right;
        value += weightedLeft * y[i]!;
        nextValue += weightedRight * y[i]!;
      }
      this.#diagonal[piece] = diagonal;
      this.#beside[piece] = beside;
      this.values[piece] = value;
      diagonal = nextDiagonal;
      value = nextValue;
    }
    this.#diagonal[last] = diagonal;
    this.values[last] = value;
  }

  /** Elimination of a symmetric three-diagonal system; the right-hand side becomes the solution. */
  #solve(): void {
    const values = this.values;
    const diagonal = this.#diagonal;
    const beside = this.#beside;
    const last = values.length - 1;
    for (let j = 1; j <= last; j++) {
      const factor = beside[j - 1]! / diagonal[j - 1]!;
      diagonal[j]! -= factor * beside[j - 1]!;
      values[j]! -= factor * values[j - 1]!;
    }
    values[last]! /= diagonal[last]!;
    for (let j = last - 1; j >= 0; j--) values[j] = (values[j]! - beside[j]! * values[j + 1]!) / diagonal[j]!;
  }

  /** Weighted sum of squared residuals of the latest fit, to the readings it was made to. */
  sse(y: Float64Array): number {
    const x = this.#x;
    const last = this.#corners.length - 1;
    let sse: number = 0;
    for (let piece = 0, i = 0; piece < last; piece++) {
      const from = this.#corners[piece]!;
      const start = this.values[piece]!;
      const slope = (this.values[piece + 1]! - start) / (this.#corners[piece + 1]! - from);
      for (const end = this.#endOf(piece, i); i < end; i++) {
        const residual = y[i]! - start - slope * (x[i]! - from);
        sse += this.#weights[i]! * residual * residual;
      }
    }
    return sse;
  }
}
