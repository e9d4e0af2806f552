/**
 * Corners max(0, x − x[corner]) on runs of some points, one row each, with what a line (and a first corner, if given)
 * can already do taken out of them, so that the coefficient of one is one dot product with the readings: `bend`.
 */
export class Hinges {
  readonly #x: Float64Array;
  readonly #weights: Float64Array;
  /** Numbers whose product with the readings of the run is the bend. */
  readonly #directions: Float64Array;
  readonly #from: Int32Array;
  readonly #to: Int32Array;
  /** Weighted sum of squares of the remainder of the corner. */
  readonly #size: Float64Array;
  /** The corner ≈ constant + along·x + onFirst·(first corner's remainder). */
  readonly #along: Float64Array;
  readonly #constant: Float64Array;
  readonly #onFirst: Float64Array;
  readonly #remainders: Float64Array[] = [];

  constructor(x: Float64Array, weights: Float64Array, rows: number) {
    this.#x = x;
    this.#weights = weights;
    this.#directions = new Float64Array(rows * x.length);
    this.#from = new Int32Array(rows);
    this.#to = new Int32Array(rows);
    this.#size = new Float64Array(rows);
    this.#along = new Float64Array(rows);
    this.#constant = new Float64Array(rows);
    this.#onFirst = new Float64Array(rows);
  }

  /** Prepare the corner at a point inside the run from..to, beside a first corner on the same run if one is given. */
  prepare(row: number, [from, to]: readonly [number, number], corner: number, first?: number): void {
    const x = this.#x;
    const weights = this.#weights;
    const remainder = new Float64Array(to - from + 1);
    for (let i = 0; i < remainder.length; i++) remainder[i] = Math.max(0, x[from + i]! - x[corner]!);
    const { slope, intercept } = lineThrough(x, remainder, weights, from);
    for (let i = 0; i < remainder.length; i++) remainder[i]! -= intercept + slope * x[from + i]!;
    if (first !== undefined) this.#onFirst[row] = this.#takeOut(first, remainder, from);
    const size = dot(weights, remainder, remainder, from);
    for (let i = 0; i < remainder.length; i++) {
      this.#directions[row * x.length + from + i] = (remainder[i]! * weights[from + i]!) / size;
    }
    this.#remainders[row] = remainder;
    this.#from[row] = from;
    this.#to[row] = to;
    this.#size[row] = size;
    this.#along[row] = slope;
    this.#constant[row] = intercept;
  }

  /** Takes out of a corner what a first one on the same run can do; returns how much of it that is. */
  #takeOut(first: number, remainder: Float64Array, from: number): number {
    const other = this.#remainders[first]!;
    const share = dot(this.#weights, remainder, other, from) / this.#size[first]!;
    for (let i = 0; i < remainder.length; i++) remainder[i]! -= share * other[i]!;
    return share;
  }

  /** Coefficient of the corner for these readings, which have one value a point. */
  bend(row: number, y: Float64Array): number {
    const directions = this.#directions;
    const to = this.#to[row]!;
    let bend = 0;
    for (let i = this.#from[row]!, at = row * y.length + i; i <= to; i++, at++)
      bend += directions[at]! * y[i]!;
    return bend;
  }

  /** How much a corner of this bend takes off the sum of squares. */
  gain(row: number, bend: number): number {
    return bend * bend * this.#size[row]!;
  }

  /** What is to be added to the slope of the line alone for the slope left of a corner of this bend. */
  slopeChange(row: number, bend: number): number {
    return -bend * this.#along[row]!;
  }

  /** The same for the value at x = 0. */
  interceptChange(row: number, bend: number): number {
    return -bend * this.#constant[row]!;
  }

  /** What a second corner of this bend adds to the bend at the first one. */
  firstBendChange(row: number, bend: number): number {
    return -bend * this.#onFirst[row]!;
  }
}

/** Weighted line through the values y that belong to the points from `from` on. */
function lineThrough(
  x: Float64Array,
  y: Float64Array,
  weights: Float64Array,
  from: number,
): { slope: number; intercept: number } {
  let total = 0;
  let sumX = 0;
  let sumY = 0;
  for (let i = 0; i < y.length; i++) {
    const weight = weights[from + i]!;
    total += weight;
    sumX += weight * x[from + i]!;
    sumY += weight * y[i]!;
  }
  const meanX = sumX / total;
  let shared = 0;
  let spread = 0;
  for (let i = 0; i < y.length; i++) {
    const gap = x[from + i]! - meanX;
    shared += weights[from + i]! * gap * y[i]!;
    spread += weights[from + i]! * gap * gap;
  }
  const slope = shared / spread;
  return { slope, intercept: sumY / total - slope * meanX };
}

/** Weighted product of two lists of values that belong to the points from `from` on. */
function dot(weights: Float64Array, a: Float64Array, b: Float64Array, from: number): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += weights[from + i]! * a[i]! * b[i]!;
  return sum;
}
