/**
 * The corner max(0, x − x[corner]) on the run from..to of some points, with what a line (and a first corner, if
 * given) can already do taken out of it, so that its coefficient is one dot product with the readings. `Hinges` makes
 * these products.
 */
export class Hinge {
  readonly corner: number;
  /** Numbers whose product with the readings of the run is the bend; first point of the run. */
  readonly direction: Float64Array;
  readonly from: number;
  /** Weighted sum of squares of the remainder of the corner. */
  readonly size: number;
  /** The corner ≈ constant + along·x + onFirst·(first corner's remainder). */
  readonly #along: number;
  readonly #constant: number;
  readonly #onFirst: number;
  readonly #remainder: Float64Array;
  /** Of the latest readings: coefficient of the remainder, and how much it takes off the sum of squares. */
  bend = NaN;
  gain = NaN;

  constructor(x: Float64Array, weights: Float64Array, run: [number, number], corner: number, first?: Hinge) {
    const [from, to] = run;
    this.corner = corner;
    this.from = from;
    const size = to - from + 1;
    this.#remainder = new Float64Array(size);
    this.direction = new Float64Array(size);
    for (let i = 0; i < size; i++) this.#remainder[i] = Math.max(0, x[from + i]! - x[corner]!);
    const { slope, intercept } = lineThrough(x, this.#remainder, weights, from);
    this.#along = slope;
    this.#constant = intercept;
    for (let i = 0; i < size; i++)
      this.#remainder[i] = this.#remainder[i]! - intercept - slope * x[from + i]!;
    this.#onFirst = first ? dot(weights, this.#remainder, first.#remainder, from) / first.size : 0;
    for (let i = 0; first && i < size; i++) this.#remainder[i]! -= this.#onFirst * first.#remainder[i]!;
    this.size = dot(weights, this.#remainder, this.#remainder, from);
    for (let i = 0; i < size; i++) {
      this.direction[i] = (this.#remainder[i]! * weights[from + i]!) / this.size;
    }
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

/** Many corners on the same points, all fitted at once: their directions stand in one table, so that a fit is one loop. */
export class Hinges {
  readonly #hinges: readonly Hinge[];
  readonly #table: Float64Array;
  readonly #points: number;

  constructor(hinges: readonly Hinge[], points: number) {
    this.#hinges = hinges;
    this.#points = points;
    this.#table = new Float64Array(hinges.length * points);
    hinges.forEach(({ direction, from }, h) => {
      this.#table.set(direction, h * points + from);
    });
  }

  load(y: Float64Array): void {
    const table = this.#table;
    const n = this.#points;
    let at = 0;
    for (const hinge of this.#hinges) {
      let bend = 0;
      for (let i = 0; i < n; i++) bend += table[at + i]! * y[i]!;
      at += n;
      hinge.bend = bend;
      hinge.gain = bend * bend * hinge.size;
    }
  }
}
