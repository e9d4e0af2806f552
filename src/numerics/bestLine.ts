/**
 * The best of the continuous lines of straight pieces that were offered: of equally good ones that with the smallest
 * first break, then that with the smallest second one. With one break the second one is NaN.
 */
export class BestLine {
  /** Weighted sum of squares that it leaves; Infinity before the first offer. */
  sse: number = Infinity;
  /** A line that leaves more is beaten. */
  most: number = Infinity;
  /** Its breaks, the value at x = 0 and the slope of its first piece, and what the slope gains at each break. */
  first: number = NaN;
  second: number = NaN;
  intercept: number = NaN;
  slope: number = NaN;
  firstBend: number = NaN;
  secondBend: number = NaN;
  #tie: number = 0;

  /** Forget all; sums of squares that differ by `tie` at most count as equal from now on. */
  restart(tie: number): void {
    this.sse = Infinity;
    this.most = Infinity;
    this.first = NaN;
    this.second = NaN;
    this.#tie = tie;
  }

  offer(
    sse: number,
    first: number,
    second: number,
    intercept: number,
    slope: number,
    firstBend: number,
    secondBend: number,
  ): void {
    if (sse >= this.sse - this.#tie) {
      const earlier = first < this.first || (first === this.first && second < this.second);
      if (sse > this.most || !earlier) return;
    }
    if (sse < this.sse) {
      this.sse = sse;
      this.most = sse + this.#tie;
    }
    this.first = first;
    this.second = second;
    this.intercept = intercept;
    this.slope = slope;
    this.firstBend = firstBend;
    this.secondBend = secondBend;
  }
}
