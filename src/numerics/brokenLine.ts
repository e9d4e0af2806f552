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
 * Cost      about n² candidates of O(n) at most; allocates nothing after construction
 * Source    Hudson 1966, J Am Stat Assoc 61:1097–1129 (from memory)
 */
export class BrokenLine {
  /** Of the latest fit, ascending. */
  readonly breakpoints: Float64Array;
  sse = NaN;
  readonly #fitted: CornerFit;
  readonly #x: Float64Array;
  readonly #weights: Float64Array;
  readonly #perWeight: number;
  readonly #y: Float64Array;
  readonly #runs: RunLines;
  /** Corners at points, each by two of them: see `#right`, `#left` and `#second`. */
  readonly #hinges: Hinges;
  /** Of the latest readings: bend at a corner at each point, on all of them. */
  readonly #bends: Float64Array;
  /** The least sum of squares with breaks in the gaps after points i and j: lines that need not meet; at i·n + j. */
  readonly #least: Float64Array;
  readonly #middle: number;
  readonly #half: number;
  #leastBend = NaN;
  #tie = NaN;

  constructor(x: ArrayLike<number>, breaks: 1 | 2, weights?: ArrayLike<number>) {
    const n = x.length;
    this.#middle = (x[0]! + x[n - 1]!) / 2;
    this.#half = (x[n - 1]! - x[0]!) / 2;
    this.#x = Float64Array.from(x, (value) => (value - this.#middle) / this.#half);
    this.#weights = Float64Array.from(x, (_, i) => weights?.[i] ?? 1);
    this.#perWeight = 1 / this.#weights.reduce((sum, weight) => sum + weight, 0);
    this.#y = new Float64Array(n);
    this.breakpoints = new Float64Array(breaks);
    this.#fitted = new CornerFit(x, breaks + 2, weights);
    this.#runs = new RunLines(this.#x, this.#weights, { inner: breaks === 2 });
    this.#hinges = new Hinges(this.#x, this.#weights, (breaks === 1 ? 1 : 3) * n * n);
    this.#bends = new Float64Array(n);
    this.#least = new Float64Array(n * n);
    this.#prepareHinges(breaks);
  }

  #prepareHinges(breaks: 1 | 2): void {
    const last = this.#x.length - 1;
    for (let m = 1; m < last; m++) {
      this.#hinges.prepare(this.#left(last, m), [0, last], m);
      // With one break only corners on all the points at once are asked for.
      if (breaks === 1) continue;
      for (let to = m + 1; to < last; to++) this.#hinges.prepare(this.#left(to, m), [0, to], m);
      for (let from = 1; from < m; from++) this.#hinges.prepare(this.#right(from, m), [from, last], m);
      for (let q = m + 1; q < last; q++) {
        this.#hinges.prepare(this.#second(m, q), [0, last], q, this.#left(last, m));
      }
    }
  }

  /** Row of the corner at point m on the run 0..to. */
  #left(to: number, m: number): number {
    return to * this.#x.length + m;
  }

  /** Row of the corner at point m on the run from..n−1. */
  #right(from: number, m: number): number {
    return (this.#x.length + from) * this.#x.length + m;
  }

  /** Row of a second corner at point q after a first one at m. */
  #second(m: number, q: number): number {
    return (2 * this.#x.length + m) * this.#x.length + q;
  }

  /** Fitted values at the first point, the breakpoints and the last point. */
  get corners(): Float64Array {
    return this.#fitted.values;
  }

  fit(y: Float64Array): boolean {
    this.#load(y);
    this.#runs.fit(this.#y);
    for (let m = 1; m < y.length - 1; m++) {
      this.#bends[m] = this.#hinges.bend(this.#left(y.length - 1, m), this.#y);
    }
    this.sse = Number.POSITIVE_INFINITY;
    if (this.breakpoints.length === 1) this.#oneBreak();
    else this.#twoBreaks();
    if (this.sse === Number.POSITIVE_INFINITY) return false;
    for (let j = 0; j < this.breakpoints.length; j++) {
      this.breakpoints[j] = this.#middle + this.#half * this.breakpoints[j]!;
    }
    this.sse = this.#fitted.fit(this.breakpoints, y);
    return true;
  }

  /** Readings about their mean, and what counts as rounding beside their spread. */
  #load(y: Float64Array): void {
    const weights = this.#weights;
    let mean = 0;
    for (let i = 0; i < y.length; i++) mean += weights[i]! * y[i]!;
    mean *= this.#perWeight;
    let spread = 0;
    for (let i = 0; i < y.length; i++) {
      const about = y[i]! - mean;
      this.#y[i] = about;
      spread += weights[i]! * about * about;
    }
    this.#leastBend = LEAST_BEND * Math.sqrt(spread * this.#perWeight);
    this.#tie = TIE * spread;
  }

  #offer(sse: number, first: number, second: number): void {
    if (sse > this.sse + this.#tie) return;
    const earlier = first < this.breakpoints[0]!;
    const same = first === this.breakpoints[0]! && second < this.breakpoints[1]!;
    if (sse >= this.sse - this.#tie && !(earlier || same)) return;
    this.sse = Math.min(sse, this.sse);
    this.breakpoints[0] = first;
    if (this.breakpoints.length === 2) this.breakpoints[1] = second;
  }

  #oneBreak(): void {
    const n = this.#x.length;
    for (let i = 1; i < n - 2; i++) {
      const first = this.#meeting(i, this.#runs.intercept[i]!, this.#runs.slope[i]!, (i + 1) * n + n - 1);
      if (!Number.isNaN(first))
        this.#offer(this.#runs.sse[i]! + this.#runs.sse[(i + 1) * n + n - 1]!, first, NaN);
    }
    for (let m = 1; m < n - 1; m++) {
      const bend = this.#bends[m]!;
      if (!(bend > this.#leastBend)) continue;
      this.#offer(this.#runs.sse[n - 1]! - this.#hinges.gain(this.#left(n - 1, m), bend), this.#x[m]!, NaN);
    }
  }

  /** Where a line meets the line of the run to its right, if inside the gap after point i and bending up. */
  #meeting(i: number, intercept: number, slope: number, run: number): number {
    return this.#crossing(i, intercept, slope, this.#runs.intercept[run]!, this.#runs.slope[run]!);
  }

  #crossing(i: number, interceptLeft: number, slopeLeft: number, interceptRight: number, slopeRight: number) {
    const bend = slopeRight - slopeLeft;
    if (!(bend > this.#leastBend)) return NaN;
    const k = (interceptLeft - interceptRight) / bend;
    return k > this.#x[i]! && k < this.#x[i + 1]! ? k : NaN;
  }

  #twoBreaks(): void {
    this.#bothInGaps();
    this.#bothAtPoints();
    this.#firstInGap();
    this.#secondInGap();
  }

  /** Whether breaks in the gaps after i and j, the ends of the gaps among them, can no longer be the best. */
  #beaten(i: number, j: number): boolean {
    return this.#least[i * this.#x.length + j]! > this.sse + this.#tie;
  }

  #bothInGaps(): void {
    const n = this.#x.length;
    const { intercept, slope, sse } = this.#runs;
    for (let i = 0; i < n - 2; i++) {
      for (let j = i + 1; j < n - 1; j++) {
        const inner = (i + 1) * n + j;
        const outer = (j + 1) * n + n - 1;
        const least = sse[i]! + sse[inner]! + sse[outer]!;
        this.#least[i * n + j] = least;
        // At least two points to each piece.
        if (i < 1 || j < i + 2 || j > n - 3 || this.#beaten(i, j)) continue;
        const first = this.#meeting(i, intercept[i]!, slope[i]!, inner);
        if (Number.isNaN(first)) continue;
        const second = this.#meeting(j, intercept[inner]!, slope[inner]!, outer);
        if (!Number.isNaN(second)) this.#offer(least, first, second);
      }
    }
  }

  #bothAtPoints(): void {
    const n = this.#x.length;
    const hinges = this.#hinges;
    for (let m = 1; m < n - 2; m++) {
      const first = this.#bends[m]!;
      const withFirst = this.#runs.sse[n - 1]! - hinges.gain(this.#left(n - 1, m), first);
      for (let q = m + 1; q < n - 1; q++) {
        if (this.#beaten(m - 1, q - 1) || this.#beaten(m, q)) continue;
        const row = this.#second(m, q);
        const bend = hinges.bend(row, this.#y);
        if (!(bend > this.#leastBend)) continue;
        if (!(first + hinges.firstBendChange(row, bend) > this.#leastBend)) continue;
        this.#offer(withFirst - hinges.gain(row, bend), this.#x[m]!, this.#x[q]!);
      }
    }
  }

  #firstInGap(): void {
    const n = this.#x.length;
    const hinges = this.#hinges;
    const { intercept, slope, sse } = this.#runs;
    for (let i = 1; i < n - 3; i++) {
      const rest = (i + 1) * n + n - 1;
      for (let m = i + 2; m < n - 1; m++) {
        if (this.#beaten(i, m - 1) || this.#beaten(i, m)) continue;
        const row = this.#right(i + 1, m);
        const bend = hinges.bend(row, this.#y);
        if (!(bend > this.#leastBend)) continue;
        const inner = intercept[rest]! + hinges.interceptChange(row, bend);
        const along = slope[rest]! + hinges.slopeChange(row, bend);
        const first = this.#crossing(i, intercept[i]!, slope[i]!, inner, along);
        if (Number.isNaN(first)) continue;
        this.#offer(sse[i]! + sse[rest]! - hinges.gain(row, bend), first, this.#x[m]!);
      }
    }
  }

  #secondInGap(): void {
    const n = this.#x.length;
    const hinges = this.#hinges;
    const { intercept, slope, sse } = this.#runs;
    for (let j = 2; j < n - 2; j++) {
      const last = (j + 1) * n + n - 1;
      for (let m = 1; m < j; m++) {
        if (this.#beaten(m - 1, j) || this.#beaten(m, j)) continue;
        const row = this.#left(j, m);
        const bend = hinges.bend(row, this.#y);
        if (!(bend > this.#leastBend)) continue;
        const inner = intercept[j]! + hinges.interceptChange(row, bend) - bend * this.#x[m]!;
        const along = slope[j]! + hinges.slopeChange(row, bend) + bend;
        const second = this.#meeting(j, inner, along, last);
        if (Number.isNaN(second)) continue;
        this.#offer(sse[j]! - hinges.gain(row, bend) + sse[last]!, this.#x[m]!, second);
      }
    }
  }
}
