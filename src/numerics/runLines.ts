/**
 * Weighted least-squares lines through every run of neighbouring points, refitted in place.
 *
 * Shape     x ascending; run from..to (both included, at least two points) is entry from·n + to of each table
 * Accuracy  the sums of each run are taken afresh, not as differences of running totals, so little cancels
 * Cost      n²/2 runs in O(1) each
 */
export class RunLines {
  readonly slope: Float64Array;
  /** Value of the line at x = 0. */
  readonly intercept: Float64Array;
  readonly sse: Float64Array;
  readonly #x: Float64Array;
  readonly #weights: Float64Array;
  /** One over the weight, mean, and one over Σw(x − mean)² of each run. */
  readonly #perWeight: Float64Array;
  readonly #meanX: Float64Array;
  readonly #perSpread: Float64Array;
  readonly #inner: boolean;

  /** Without `inner`, only the runs that begin at the first point or end at the last one are fitted. */
  constructor(x: Float64Array, weights: Float64Array, { inner }: { inner: boolean }) {
    const n = x.length;
    this.#inner = inner;
    this.#x = x;
    this.#weights = weights;
    this.slope = new Float64Array(n * n);
    this.intercept = new Float64Array(n * n);
    this.sse = new Float64Array(n * n);
    this.#perWeight = new Float64Array(n * n);
    this.#meanX = new Float64Array(n * n);
    this.#perSpread = new Float64Array(n * n);
    for (let from = 0; from < n; from++) {
      for (let to = from; to < n; to++) this.#prepare(from, to);
    }
  }

  #prepare(from: number, to: number): void {
    let weight = 0;
    let sum = 0;
    for (let i = from; i <= to; i++) {
      weight += this.#weights[i]!;
      sum += this.#weights[i]! * this.#x[i]!;
    }
    const mean = sum / weight;
    let spread = 0;
    for (let i = from; i <= to; i++) spread += this.#weights[i]! * (this.#x[i]! - mean) ** 2;
    const run = from * this.#x.length + to;
    this.#perWeight[run] = 1 / weight;
    this.#meanX[run] = mean;
    this.#perSpread[run] = 1 / spread;
  }

  fit(y: Float64Array): void {
    const n = y.length;
    const x = this.#x;
    const weights = this.#weights;
    for (let from = 0; from < n - 1; from++) {
      let sum = weights[from]! * y[from]!;
      let product = sum * x[from]!;
      let square = sum * y[from]!;
      const firstWanted = this.#inner || from === 0 ? from + 1 : n - 1;
      for (let to = from + 1; to < n; to++) {
        const weighted = weights[to]! * y[to]!;
        sum += weighted;
        product += weighted * x[to]!;
        square += weighted * y[to]!;
        if (to >= firstWanted) this.#line(from * n + to, sum, product, square);
      }
      // A line through two points leaves nothing over; rounding would say a little.
      this.sse[from * n + from + 1] = 0;
    }
  }

  #line(run: number, sum: number, product: number, square: number): void {
    const meanX = this.#meanX[run]!;
    const meanY = sum * this.#perWeight[run]!;
    const shared = product - meanX * sum;
    const slope = shared * this.#perSpread[run]!;
    this.slope[run] = slope;
    this.intercept[run] = meanY - slope * meanX;
    this.sse[run] = Math.max(0, square - meanY * sum - slope * shared);
  }
}
