/**
 * Weighted least-squares lines through runs of neighbouring points, refitted in place.
 *
 * Shape     x ascending; run from..to (both included, at least two points) is entry from·n + to of each table
 * Accuracy  the sums of each run are sums of its own points, not differences of running totals, so little cancels
 * Cost      O(1) a run: n²/2 of them, or 2n without the inner ones
 */
export class RunLines {
  /** Σwy and Σwxy of each run, and what its line leaves over, which rounding may put a little below 0. */
  readonly sum: Float64Array;
  readonly product: Float64Array;
  readonly sse: Float64Array;
  readonly #x: Float64Array;
  readonly #weights: Float64Array;
  /** One over the weight, mean, and one over Σw(x − mean)² of each run. */
  readonly #perWeight: Float64Array;
  readonly #meanX: Float64Array;
  readonly #perSpread: Float64Array;
  readonly #inner: boolean;

  /** Without `inner`, only the runs that begin at the first point or end at the last one are fitted. */
  constructor(x: Float64Array, weights: Float64Array, inner: boolean) {
    const n = x.length;
    this.#inner = inner;
    this.#x = x;
    this.#weights = weights;
    this.sum = new Float64Array(n * n);
    this.product = new Float64Array(n * n);
    this.sse = new Float64Array(n * n);
    this.#perWeight = new Float64Array(n * n);
    this.#meanX = new Float64Array(n * n);
    this.#perSpread = new Float64Array(n * n);
    for (let from = 0; from < n; from++) {
      for (let to = from; to < n; to++) this.#prepare(from, to);
    }
  }

  #prepare(from: i32, to: i32): void {
    let weight: number = 0;
    let sum: number = 0;
    for (let i = from; i <= to; i++) {
      weight += this.#weights[i]!;
      sum += this.#weights[i]! * this.#x[i]!;
    }
    const mean = sum / weight;
    let spread: number = 0;
    for (let i = from; i <= to; i++) spread += this.#weights[i]! * (this.#x[i]! - mean) ** 2;
    const run = from * this.#x.length + to;
    this.#perWeight[run] = 1 / weight;
    this.#meanX[run] = mean;
    this.#perSpread[run] = 1 / spread;
  }

  fit(y: Float64Array): void {
    this.#rightward(y, 0);
    if (this.#inner) for (let from = 1; from < y.length - 1; from++) this.#rightward(y, from);
    else this.#leftward(y);
  }

  /** The runs that begin at a point. */
  #rightward(y: Float64Array, from: i32): void {
    const n = y.length;
    let sum = this.#weights[from]! * y[from]!;
    let product = sum * this.#x[from]!;
    let square = sum * y[from]!;
    for (let to = from + 1; to < n; to++) {
      const weighted = this.#weights[to]! * y[to]!;
      sum += weighted;
      product += weighted * this.#x[to]!;
      square += weighted * y[to]!;
      this.#set(from * n + to, sum, product, square);
    }
  }

  /** The runs that end at the last point, but for that of all points. */
  #leftward(y: Float64Array): void {
    const n = y.length;
    let sum = this.#weights[n - 1]! * y[n - 1]!;
    let product = sum * this.#x[n - 1]!;
    let square = sum * y[n - 1]!;
    for (let from = n - 2; from > 0; from--) {
      const weighted = this.#weights[from]! * y[from]!;
      sum += weighted;
      product += weighted * this.#x[from]!;
      square += weighted * y[from]!;
      this.#set(from * n + n - 1, sum, product, square);
    }
  }

  #set(run: i32, sum: number, product: number, square: number): void {
    const shared = product - this.#meanX[run]! * sum;
    this.sum[run] = sum;
    this.product[run] = product;
    this.sse[run] = square - sum * this.#perWeight[run]! * sum - shared * this.#perSpread[run]! * shared;
  }

  slope(run: i32): number {
    return this.slopeOf(run, this.sum[run]!, this.product[run]!);
  }

  /** Value of the line at x = 0. */
  intercept(run: i32): number {
    return this.interceptOf(run, this.sum[run]!, this.slope(run));
  }

  /** Slope of the line through other values on a run, from their Σwy and Σwxy. */
  slopeOf(run: i32, sum: number, product: number): number {
    return (product - this.#meanX[run]! * sum) * this.#perSpread[run]!;
  }

  /** The value of that line at x = 0, from their Σwy and its slope. */
  interceptOf(run: i32, sum: number, slope: number): number {
    return sum * this.#perWeight[run]! - slope * this.#meanX[run]!;
  }
}
