import { CornerFit } from './cornerFit.ts';
import { Hinges } from './hinges.ts';
import { RunLines } from './runLines.ts';

/** Bends below this share of the readings' spread are rounding: the readings lie on one line. */
const LEAST_BEND = 1e-9;
/** Sums of squares closer than this share of the readings' own count as equal. */
const TIE = 1e-12;

/**
 * Continuous line of two or three straight pieces whose slopes rise, by exact least squares.
 *
 * Model     y = β0 + β1·x + Σ γ_j·max(0, x − k_j), γ_j > 0, breakpoints k_j free
 * Shape     x ascending; n >= 5 for one break, 7 for two; at least two points to each piece, those at a
 *           breakpoint counting for both neighbours
 * Accuracy  exact: the best breakpoints lie either where the free lines of neighbouring runs meet inside a gap
 *           or at a point, and every such combination is tried; never worse than a grid
 *           (tests/numerics/brokenLine.test.ts)
 * Bends     when the best line of all bends downward somewhere, the best of the combinations that nowhere do is
 *           taken; a line with fewer bends may then fit better than it (our rule)
 * Ties      of equally good breakpoints the smallest first one, then the smallest second one (our rule)
 * Returns   false when no combination bends upward everywhere
 * Cost      about n² candidates of O(1), most of them ruled out at a glance; allocates nothing after construction
 * Source    Hudson 1966, J Am Stat Assoc 61:1097–1129 (from memory)
 */
export class BrokenLine {
  /** Of the latest fit, ascending. */
  readonly breakpoints: Float64Array;
  readonly #fitted: CornerFit;
  readonly #x: Float64Array;
  readonly #weights: Float64Array;
  readonly #perWeight: number;
  readonly #y: Float64Array;
  readonly #runs: RunLines;
  /** Corners at points, each by two of them: see `#left`, `#right` and `#second`. */
  readonly #hinges: Hinges;
  readonly #middle: number;
  readonly #half: number;
  #leastBend: number = NaN;
  #tie: number = NaN;
  /** The best so far: its sum of squares and breakpoints, on the scale of `#x`. */
  #bestSse: number = Infinity;
  #bestFirst: number = NaN;
  #bestSecond: number = NaN;

  constructor(x: Float64Array, breaks: i32, weights: Float64Array) {
    const n = x.length;
    const middle = (x[0]! + x[n - 1]!) / 2;
    const half = (x[n - 1]! - x[0]!) / 2;
    const scaled = new Float64Array(n);
    let total: number = 0;
    for (let i = 0; i < n; i++) {
      scaled[i] = (x[i]! - middle) / half;
      total += weights[i]!;
    }
    this.#middle = middle;
    this.#half = half;
    this.#x = scaled;
    this.#weights = weights;
    this.#perWeight = 1 / total;
    this.#y = new Float64Array(n);
    this.breakpoints = new Float64Array(breaks);
    this.#fitted = new CornerFit(x, breaks + 2, weights);
    const runs = new RunLines(scaled, weights, breaks === 2);
    this.#runs = runs;
    this.#hinges = new Hinges(scaled, weights, runs, breaks * n * n);
    this.#prepareHinges();
  }

  #prepareHinges(): void {
    const last = this.#x.length - 1;
    for (let m = 1; m < last; m++) {
      this.#hinges.prepare(this.#left(last, m), 0, last, m);
      // With one break only corners on all the points at once are asked for.
      if (this.breakpoints.length === 1) continue;
      for (let to = m + 1; to < last; to++) this.#hinges.prepare(this.#left(to, m), 0, to, m);
      for (let from = 1; from < m; from++) this.#hinges.prepare(this.#right(from, m), from, last, m);
      for (let q = m + 1; q < last; q++) {
        this.#hinges.prepareSecond(this.#second(m, q), 0, last, q, this.#left(last, m));
      }
    }
  }

  /** Row of the corner at point m on the run 0..to, where m < to. */
  #left(to: i32, m: i32): i32 {
    return to * this.#x.length + m;
  }

  /** Row of the corner at point m on the run from..n−1, where m > from: it shares a square with `#left`. */
  #right(from: i32, m: i32): i32 {
    return from * this.#x.length + m;
  }

  /** Row of a second corner at point q after a first one at m. */
  #second(m: i32, q: i32): i32 {
    return (this.#x.length + m) * this.#x.length + q;
  }

  /** Fitted values at the first point, the breakpoints and the last point. */
  get corners(): Float64Array {
    return this.#fitted.values;
  }

  fit(y: Float64Array): boolean {
    this.#load(y);
    this.#runs.fit(this.#y);
    this.#bestSse = Infinity;
    if (this.breakpoints.length === 1) this.#oneBreak();
    else this.#twoBreaks();
    if (this.#bestSse === Infinity) return false;
    this.breakpoints[0] = this.#middle + this.#half * this.#bestFirst;
    if (this.breakpoints.length === 2) this.breakpoints[1] = this.#middle + this.#half * this.#bestSecond;
    this.#fitted.fit(this.breakpoints, y);
    return true;
  }

  /** Weighted sum of squares that the latest fit leaves of the readings it was made to. */
  sse(y: Float64Array): number {
    return this.#fitted.sse(y);
  }

  /** Readings about their mean, and what counts as rounding beside their spread. */
  #load(y: Float64Array): void {
    const weights = this.#weights;
    let mean: number = 0;
    for (let i = 0; i < y.length; i++) mean += weights[i]! * y[i]!;
    mean *= this.#perWeight;
    let spread: number = 0;
    for (let i = 0; i < y.length; i++) {
      const about = y[i]! - mean;
      this.#y[i] = about;
      spread += weights[i]! * about * about;
    }
    this.#leastBend = LEAST_BEND * Math.sqrt(spread * this.#perWeight);
    this.#tie = TIE * spread;
  }

  #offer(sse: number, first: number, second: number): void {
    if (sse > this.#bestSse + this.#tie) return;
    const earlier = first < this.#bestFirst || (first === this.#bestFirst && second < this.#bestSecond);
    if (sse >= this.#bestSse - this.#tie && !earlier) return;
    if (sse < this.#bestSse) this.#bestSse = sse;
    this.#bestFirst = first;
    this.#bestSecond = second;
  }

  /** Whether lines that leave this sum of squares, though they need not meet, can no longer be the best. */
  #beaten(least: number): boolean {
    return least > this.#bestSse + this.#tie;
  }

  /** What lines that need not meet leave with a break in the gap after point i. */
  #leastAlone(i: i32): number {
    const n = this.#x.length;
    return this.#runs.sse[i]! + this.#runs.sse[(i + 1) * n + n - 1]!;
  }

  /** From the right, where lactate bends most, so that little to the left is left to try. */
  #oneBreak(): void {
    const n = this.#x.length;
    const runs = this.#runs;
    for (let i = n - 3; i >= 1; i--) {
      if (this.#beaten(this.#leastAlone(i))) continue;
      const first = this.#meeting(i, runs.intercept(i), runs.slope(i), (i + 1) * n + n - 1);
      if (!Number.isNaN(first)) this.#offer(this.#leastAlone(i), first, NaN);
    }
    for (let m = n - 2; m >= 1; m--) {
      if (this.#beaten(this.#leastAlone(m - 1)) || this.#beaten(this.#leastAlone(m))) continue;
      const row = this.#left(n - 1, m);
      const bend = this.#hinges.bend(row);
      if (!(bend > this.#leastBend)) continue;
      this.#offer(runs.sse[n - 1]! - this.#hinges.gain(row, bend), this.#x[m]!, NaN);
    }
  }

  /** Where a line meets the line of the run to its right, if inside the gap after point i and bending up. */
  #meeting(i: i32, intercept: number, slope: number, run: i32): number {
    return this.#crossing(i, intercept, slope, this.#runs.intercept(run), this.#runs.slope(run));
  }

  #crossing(
    i: i32,
    interceptLeft: number,
    slopeLeft: number,
    interceptRight: number,
    slopeRight: number,
  ): number {
    const bend = slopeRight - slopeLeft;
    const drop = interceptLeft - interceptRight;
    // Most lines meet elsewhere: that is seen without a division.
    const inGap = drop > bend * this.#x[i]! && drop < bend * this.#x[i + 1]!;
    return inGap && bend > this.#leastBend ? drop / bend : NaN;
  }

  #twoBreaks(): void {
    this.#bothInGaps();
    this.#bothAtPoints();
    this.#firstInGap();
    this.#secondInGap();
  }

  /** The same with breaks in the gaps after points i and j. */
  #least(i: i32, j: i32): number {
    const n = this.#x.length;
    const sse = this.#runs.sse;
    return sse[i]! + sse[(i + 1) * n + j]! + sse[(j + 1) * n + n - 1]!;
  }

  /** Whether a last piece that begins at this point or before it already leaves too much. */
  #endBeaten(from: i32): boolean {
    const n = this.#x.length;
    return this.#beaten(this.#runs.sse[from * n + n - 1]!);
  }

  /** At least two points to each piece; from the right as well. */
  #bothInGaps(): void {
    const n = this.#x.length;
    const runs = this.#runs;
    for (let i = n - 5; i >= 1; i--) {
      const intercept = runs.intercept(i);
      const slope = runs.slope(i);
      for (let j = n - 3; j >= i + 2 && !this.#endBeaten(j + 1); j--) {
        if (this.#beaten(this.#least(i, j))) continue;
        const inner = (i + 1) * n + j;
        const first = this.#meeting(i, intercept, slope, inner);
        if (Number.isNaN(first)) continue;
        const second = this.#meeting(j, runs.intercept(inner), runs.slope(inner), (j + 1) * n + n - 1);
        if (!Number.isNaN(second)) this.#offer(this.#least(i, j), first, second);
      }
    }
  }

  #bothAtPoints(): void {
    const n = this.#x.length;
    const hinges = this.#hinges;
    for (let m = 1; m < n - 2; m++) {
      const firstRow = this.#left(n - 1, m);
      for (let q = n - 2; q > m && !this.#endBeaten(q); q--) {
        if (this.#beaten(this.#least(m - 1, q - 1)) || this.#beaten(this.#least(m, q))) continue;
        const first = hinges.bend(firstRow);
        const row = this.#second(m, q);
        const bend = hinges.secondBend(row, firstRow, first);
        if (!(bend > this.#leastBend)) continue;
        if (!(first + hinges.firstBendChange(row, bend) > this.#leastBend)) continue;
        const gain = hinges.gain(firstRow, first) + hinges.gain(row, bend);
        this.#offer(this.#runs.sse[n - 1]! - gain, this.#x[m]!, this.#x[q]!);
      }
    }
  }

  #firstInGap(): void {
    const n = this.#x.length;
    const hinges = this.#hinges;
    const runs = this.#runs;
    const sse = runs.sse;
    for (let i = 1; i < n - 3; i++) {
      const rest = (i + 1) * n + n - 1;
      for (let m = n - 2; m >= i + 2 && !this.#endBeaten(m); m--) {
        if (this.#beaten(this.#least(i, m - 1)) || this.#beaten(this.#least(i, m))) continue;
        const row = this.#right(i + 1, m);
        const bend = hinges.bend(row);
        if (!(bend > this.#leastBend)) continue;
        const inner = runs.intercept(rest) + hinges.interceptChange(row, bend);
        const along = runs.slope(rest) + hinges.slopeChange(row, bend);
        const first = this.#crossing(i, runs.intercept(i), runs.slope(i), inner, along);
        if (Number.isNaN(first)) continue;
        this.#offer(sse[i]! + sse[rest]! - hinges.gain(row, bend), first, this.#x[m]!);
      }
    }
  }

  #secondInGap(): void {
    const n = this.#x.length;
    const hinges = this.#hinges;
    const runs = this.#runs;
    const sse = runs.sse;
    for (let j = n - 3; j >= 2 && !this.#endBeaten(j + 1); j--) {
      const last = (j + 1) * n + n - 1;
      for (let m = 1; m < j; m++) {
        if (this.#beaten(this.#least(m - 1, j)) || this.#beaten(this.#least(m, j))) continue;
        const row = this.#left(j, m);
        const bend = hinges.bend(row);
        if (!(bend > this.#leastBend)) continue;
        const inner = runs.intercept(j) + hinges.interceptChange(row, bend) - bend * this.#x[m]!;
        const along = runs.slope(j) + hinges.slopeChange(row, bend) + bend;
        const second = this.#meeting(j, inner, along, last);
        if (Number.isNaN(second)) continue;
        this.#offer(sse[j]! - hinges.gain(row, bend) + sse[last]!, this.#x[m]!, second);
      }
    }
  }
}
