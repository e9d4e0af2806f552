/**
 * Weighted least-squares lines through runs of neighbouring points, refitted in place.
 *
 * Shape     x ascending; run from..to (both included) is entry from·n + to of each table; the line of one point is level;
 *           values at x are above the first of y
 * Accuracy  the sums of each run are sums of its own points, not differences of running totals, so little cancels
 * Cost      O(n) for all the runs that begin at the first point or end at the last one; the others are fitted one by one
 */
export class RunLines {
  /** Σwy and Σwxy of each run, and what its line leaves over, which rounding may put a little below 0. */
  readonly sum: Float64Array;
  readonly product: Float64Array;
  readonly sse: Float64Array;
  /** Σw(y − mean)² of all points. */
  spread: number = NaN;
  readonly #x: Float64Array;
  readonly #y: Float64Array;
  readonly #weights: Float64Array;
  /** One over the weight, mean, and one over Σw(x − mean)² of each run. */
  readonly #perWeight: Float64Array;
  readonly #meanX: Float64Array;
  readonly #perSpread: Float64Array;

  constructor(x: Float64Array, weights: Float64Array) {
    const n = x.length;
    this.#x = x;
    this.#y = new Float64Array(n);
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
    this.#perSpread[run] = from === to ? 0 : 1 / spread;
  }

  /**
   * Take new values y and fit the runs that begin at the first point or end at the last one. Values are counted from the
   * first: that keeps their squares small, and makes equal ones exactly 0.
   */
  fitOuter(y: Float64Array): void {
    this.#rightward(y);
    this.#leftward();
  }

  /** The runs that begin at the first point, but for that point alone. */
  #rightward(values: Float64Array): void {
    const x = this.#x;
    const y = this.#y;
    const weights = this.#weights;
    const first = values[0]!;
    let sum: number = 0;
    let product: number = 0;
    let square: number = 0;
    for (let to = 1; to < values.length; to++) {
      const value = values[to]! - first;
      const weighted = weights[to]! * value;
      y[to] = value;
      sum += weighted;
      product += weighted * x[to]!;
      square += weighted * value;
      this.#set(to, sum, product, square);
    }
    this.spread = square - sum * this.#perWeight[y.length - 1]! * sum;
  }

  /** The runs that end at the last point, but for the two longest: one is fitted already, no piece begins at the second point. */
  #leftward(): void {
    const x = this.#x;
    const y = this.#y;
    const weights = this.#weights;
    const n = y.length;
    let sum: number = 0;
    let product: number = 0;
    let square: number = 0;
    for (let from = n - 1; from > 1; from--) {
      const weighted = weights[from]! * y[from]!;
      sum += weighted;
      product += weighted * x[from]!;
      square += weighted * y[from]!;
      this.#set(from * n + n - 1, sum, product, square);
    }
  }

  /** Fit one run that neither begins at the first point nor ends at the last one. */
  fitInner(from: i32, to: i32): void {
    const x = this.#x;
    const y = this.#y;
    const weights = this.#weights;
    let sum: number = 0;
    let product: number = 0;
    let square: number = 0;
    for (let i = from; i <= to; i++) {
      const weighted = weights[i]! * y[i]!;
      sum += weighted;
      product += weighted * x[i]!;
      square += weighted * y[i]!;
    }
    this.#set(from * y.length + to, sum, product, square);
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
