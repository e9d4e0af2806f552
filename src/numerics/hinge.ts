/**
 * The corner max(0, x − x[corner]) on the run from..to of some points, with what a line (and a first corner, if
 * given) can already do taken out of it, so that its coefficient is one dot product with the readings.
 */
export class Hinge {
  readonly corner: number;
  readonly #from: number;
  /** Weighted remainder of the corner, and the sum of its squares. */
  readonly #direction: Float64Array;
  readonly #size: number;
  /** The corner ≈ constant + along·x + onFirst·(first corner's remainder). */
  readonly #along: number;
  readonly #constant: number;
  readonly #onFirst: number;
  readonly #remainder: Float64Array;
  /** Of the latest `load`: coefficient of the remainder, and how much it takes off the sum of squares. */
  bend = NaN;
  gain = NaN;

  constructor(x: Float64Array, weights: Float64Array, run: [number, number], corner: number, first?: Hinge) {
    const [from, to] = run;
    this.corner = corner;
    this.#from = from;
    const size = to - from + 1;
    this.#remainder = new Float64Array(size);
    this.#direction = new Float64Array(size);
    for (let i = 0; i < size; i++) this.#remainder[i] = Math.max(0, x[from + i]! - x[corner]!);
    const { slope, intercept } = lineThrough(x, this.#remainder, weights, from);
    this.#along = slope;
    this.#constant = intercept;
    for (let i = 0; i < size; i++)
      this.#remainder[i] = this.#remainder[i]! - intercept - slope * x[from + i]!;
    this.#onFirst = first ? dot(weights, this.#remainder, first.#remainder, from) / first.#size : 0;
    for (let i = 0; first && i < size; i++) this.#remainder[i]! -= this.#onFirst * first.#remainder[i]!;
    for (let i = 0; i < size; i++) this.#direction[i] = this.#remainder[i]! * weights[from + i]!;
    this.#size = dot(weights, this.#remainder, this.#remainder, from);
  }

  load(y: Float64Array): void {
    let sum = 0;
    for (let i = 0; i < this.#direction.length; i++) sum += this.#direction[i]! * y[this.#from + i]!;
    this.bend = sum / this.#size;
    this.gain = this.bend * sum;
  }

  /** Slope left of the corner when a line alone has this slope. */
  slopeLeft(lineSlope: number): number {
    return lineSlope - this.bend * this.#along;
  }

  /** Value at x = 0 of the line left of the corner when a line alone has this intercept. */
  interceptLeft(lineIntercept: number): number {
    return lineIntercept - this.bend * this.#constant;
  }

  /** Bend at the first corner once this second one has taken its share. */
  bendOfFirst(first: Hinge): number {
    return first.bend - this.bend * this.#onFirst;
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
