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
  bend = 0;
  gain = 0;

  constructor(x: Float64Array, weights: Float64Array, run: [number, number], corner: number, first?: Hinge) {
    const [from, to] = run;
    this.corner = corner;
    this.#from = from;
    const w = weights.slice(from, to + 1);
    const at = x.slice(from, to + 1);
    const raised = at.map((value) => Math.max(0, value - x[corner]!));
    const line = lineThrough(at, raised, w);
    this.#along = line.slope;
    this.#constant = line.intercept;
    let remainder = raised.map((value, i) => value - line.intercept - line.slope * at[i]!);
    this.#onFirst = first ? dot(w, remainder, first.#remainder) / first.#size : 0;
    if (first) remainder = remainder.map((value, i) => value - this.#onFirst * first.#remainder[i]!);
    this.#remainder = remainder;
    this.#direction = remainder.map((value, i) => value * w[i]!);
    this.#size = dot(w, remainder, remainder);
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

function lineThrough(
  x: Float64Array,
  y: Float64Array,
  w: Float64Array,
): { slope: number; intercept: number } {
  const ones = w.map(() => 1);
  const total = dot(w, ones, ones);
  const meanX = dot(w, x, ones) / total;
  const meanY = dot(w, y, ones) / total;
  const centred = x.map((value) => value - meanX);
  const slope = dot(w, centred, y) / dot(w, centred, centred);
  return { slope, intercept: meanY - slope * meanX };
}

function dot(w: Float64Array, a: Float64Array, b: Float64Array): number {
  return w.reduce((sum, weight, i) => sum + weight * a[i]! * b[i]!, 0);
}
