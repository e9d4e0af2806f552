import type { RunLines } from './runLines.ts';

/**
 * Corners max(0, x − x[corner]) on runs of some points, one row each (`left`, `right`, `second`), with what a line (and
 * a first corner, if there is one) can already do taken out of them, so that the bend at one, its coefficient, follows
 * in O(1) from the sums of the runs.
 */
export class Hinges {
  readonly #x: Float64Array;
  readonly #weights: Float64Array;
  readonly #runs: RunLines;
  readonly #corner: Int32Array;
  /** The run the corner stands on, and the part of it beyond the corner, as `RunLines` counts them. */
  readonly #run: Int32Array;
  readonly #beyond: Int32Array;
  /** Weighted sum of squares of the remainder of the corner, and one over it. */
  readonly #size: Float64Array;
  readonly #perSize: Float64Array;
  /** The corner ≈ constant + along·x + onFirst·(first corner's remainder). */
  readonly #along: Float64Array;
  readonly #constant: Float64Array;
  readonly #onFirst: Float64Array;

  /** All that a line with so many breaks asks for. */
  constructor(x: Float64Array, weights: Float64Array, runs: RunLines, breaks: i32) {
    const rows = breaks * x.length * x.length;
    this.#x = x;
    this.#weights = weights;
    this.#runs = runs;
    this.#corner = new Int32Array(rows);
    this.#run = new Int32Array(rows);
    this.#beyond = new Int32Array(rows);
    this.#size = new Float64Array(rows);
    this.#perSize = new Float64Array(rows);
    this.#along = new Float64Array(rows);
    this.#constant = new Float64Array(rows);
    this.#onFirst = new Float64Array(rows);
    const last = x.length - 1;
    for (let m = 1; m < last; m++) {
      this.#prepare(this.left(last, m), 0, last, m);
      // With one break only corners on all the points at once are asked for.
      if (breaks === 2) this.#prepareOthers(m);
    }
  }

  #prepareOthers(m: i32): void {
    const last = this.#x.length - 1;
    for (let to = m + 1; to < last; to++) this.#prepare(this.left(to, m), 0, to, m);
    for (let from = 1; from < m; from++) this.#prepare(this.right(from, m), from, last, m);
    for (let q = m + 1; q < last; q++) this.#prepareSecond(this.second(m, q), 0, last, q, this.left(last, m));
  }

  /** Row of the corner at point m on the run 0..to, where m < to. */
  left(to: i32, m: i32): i32 {
    return to * this.#x.length + m;
  }

  /** Row of the corner at point m on the run from..n−1, where m > from: it shares a square with `left`. */
  right(from: i32, m: i32): i32 {
    return from * this.#x.length + m;
  }

  /** Row of a second corner at point q after a first one at m, on the run of all points. */
  second(m: i32, q: i32): i32 {
    return (this.#x.length + m) * this.#x.length + q;
  }

  /** Prepare the corner at a point inside the run from..to. */
  #prepare(row: i32, from: i32, to: i32, corner: i32): void {
    this.#takeOutLine(row, from, to, corner);
    let size: number = 0;
    for (let i = from; i <= to; i++) size += this.#weights[i]! * this.#remainder(row, i) ** 2;
    this.#size[row] = size;
    this.#perSize[row] = 1 / size;
  }

  /** Prepare a corner on the run from..to beside a first one there, which is prepared already. */
  #prepareSecond(row: i32, from: i32, to: i32, corner: i32, first: i32): void {
    this.#takeOutLine(row, from, to, corner);
    let shared: number = 0;
    for (let i = from; i <= to; i++) {
      shared += this.#weights[i]! * this.#remainder(row, i) * this.#remainder(first, i);
    }
    const onFirst = shared * this.#perSize[first]!;
    let size: number = 0;
    for (let i = from; i <= to; i++) {
      size += this.#weights[i]! * (this.#remainder(row, i) - onFirst * this.#remainder(first, i)) ** 2;
    }
    this.#onFirst[row] = onFirst;
    this.#size[row] = size;
    this.#perSize[row] = 1 / size;
  }

  /** Takes out of a corner what a line on its run can do. */
  #takeOutLine(row: i32, from: i32, to: i32, corner: i32): void {
    const x = this.#x;
    const run = from * x.length + to;
    let sum: number = 0;
    let product: number = 0;
    for (let i = corner + 1; i <= to; i++) {
      const weighted = this.#weights[i]! * (x[i]! - x[corner]!);
      sum += weighted;
      product += weighted * x[i]!;
    }
    const along = this.#runs.slopeOf(run, sum, product);
    this.#along[row] = along;
    this.#constant[row] = this.#runs.interceptOf(run, sum, along);
    this.#corner[row] = corner;
    this.#run[row] = run;
    this.#beyond[row] = (corner + 1) * x.length + to;
  }

  /** What is left at a point of the corner of a row without a line. */
  #remainder(row: i32, i: i32): number {
    const corner = Math.max(0, this.#x[i]! - this.#x[this.#corner[row]!]!);
    return corner - this.#constant[row]! - this.#along[row]! * this.#x[i]!;
  }

  /** Coefficient of the corner for the readings that the lines of the runs were fitted to last. */
  bend(row: i32): number {
    return this.#product(row) * this.#perSize[row]!;
  }

  /** Coefficient of a second corner after a first one that by itself has the given bend. */
  secondBend(row: i32, first: i32, firstBend: number): number {
    return (this.#product(row) - this.#onFirst[row]! * this.#size[first]! * firstBend) * this.#perSize[row]!;
  }

  /** Weighted product of the readings with what a line leaves of the corner. */
  #product(row: i32): number {
    const sum = this.#runs.sum;
    const product = this.#runs.product;
    const run = this.#run[row]!;
    const beyond = this.#beyond[row]!;
    const withCorner = product[beyond]! - this.#x[this.#corner[row]!]! * sum[beyond]!;
    return withCorner - this.#along[row]! * product[run]! - this.#constant[row]! * sum[run]!;
  }

  /** How much a corner of this bend takes off the sum of squares. */
  gain(row: i32, bend: number): number {
    return bend * bend * this.#size[row]!;
  }

  /** What is to be added to the slope of the line alone for the slope left of a corner of this bend. */
  slopeChange(row: i32, bend: number): number {
    return -bend * this.#along[row]!;
  }

  /** The same for the value at x = 0. */
  interceptChange(row: i32, bend: number): number {
    return -bend * this.#constant[row]!;
  }

  /** What a second corner of this bend adds to the bend at the first one. */
  firstBendChange(row: i32, bend: number): number {
    return -bend * this.#onFirst[row]!;
  }
}
