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

  constructor(x: ArrayLike<number>, corners: number, weights?: ArrayLike<number>) {
    this.#x = Float64Array.from(x);
    this.#weights = Float64Array.from(x, (_, i) => weights?.[i] ?? 1);
    this.values = new Float64Array(corners).fill(NaN);
    this.#corners = new Float64Array(corners);
    this.#diagonal = new Float64Array(corners);
    this.#beside = new Float64Array(corners);
  }

  /** Fit with these breakpoints; returns the weighted sum of squared residuals. */
  fit(breakpoints: ArrayLike<number>, y: ArrayLike<number>): number {
    const last = this.#corners.length - 1;
    this.#corners[0] = this.#x[0]!;
    for (let j = 1; j < last; j++) this.#corners[j] = breakpoints[j - 1]!;
    this.#corners[last] = this.#x[this.#x.length - 1]!;
    this.#assemble(y);
    this.#solve();
    return this.#sse(y);
  }

  #share(i: number, piece: number): number {
    const left = this.#corners[piece]!;
    return (this.#x[i]! - left) / (this.#corners[piece + 1]! - left);
  }

  #pieceOf(i: number, piece: number): number {
    while (piece < this.#corners.length - 2 && this.#x[i]! >= this.#corners[piece + 1]!) piece++;
    return piece;
  }

  #assemble(y: ArrayLike<number>): void {
    this.#diagonal.fill(0);
    this.#beside.fill(0);
    this.values.fill(0);
    let piece = 0;
    for (let i = 0; i < this.#x.length; i++) {
      piece = this.#pieceOf(i, piece);
      const right = this.#share(i, piece);
      const left = 1 - right;
      const weight = this.#weights[i]!;
      this.#diagonal[piece]! += weight * left * left;
      this.#diagonal[piece + 1]! += weight * right * right;
      this.#beside[piece]! += weight * left * right;
      this.values[piece]! += weight * left * y[i]!;
      this.values[piece + 1]! += weight * right * y[i]!;
    }
  }

  /** Elimination of a symmetric three-diagonal system; the right-hand side becomes the solution. */
  #solve(): void {
    const last = this.values.length - 1;
    for (let j = 1; j <= last; j++) {
      const factor = this.#beside[j - 1]! / this.#diagonal[j - 1]!;
      this.#diagonal[j]! -= factor * this.#beside[j - 1]!;
      this.values[j]! -= factor * this.values[j - 1]!;
    }
    this.values[last]! /= this.#diagonal[last]!;
    for (let j = last - 1; j >= 0; j--) {
      this.values[j] = (this.values[j]! - this.#beside[j]! * this.values[j + 1]!) / this.#diagonal[j]!;
    }
  }

  #sse(y: ArrayLike<number>): number {
    let sse = 0;
    let piece = 0;
    for (let i = 0; i < this.#x.length; i++) {
      piece = this.#pieceOf(i, piece);
      const right = this.#share(i, piece);
      const fitted = (1 - right) * this.values[piece]! + right * this.values[piece + 1]!;
      sse += this.#weights[i]! * (y[i]! - fitted) ** 2;
    }
    return sse;
  }
}
