import { CornerFit } from './cornerFit.ts';
import { Hinge, Hinges } from './hinge.ts';
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
  readonly #y: Float64Array;
  readonly #runs: RunLines;
  /** By last point of the run 0..to and corner; by first point of the run from..n−1 and corner. */
  readonly #left: (Hinge | undefined)[][];
  readonly #right: (Hinge | undefined)[][];
  /** Second corner after a first one, both at points. */
  readonly #second: (Hinge | undefined)[][];
  readonly #hinges: Hinges;
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
    this.#y = new Float64Array(n);
    this.breakpoints = new Float64Array(breaks);
    this.#fitted = new CornerFit(x, breaks + 2, weights);
    this.#runs = new RunLines(this.#x, this.#weights);
    const hinge = (from: number, to: number, m: number) =>
      m > from && m < to ? new Hinge(this.#x, this.#weights, [from, to], m) : undefined;
    const points = Array.from(x, (_, i) => i);
    // With one break only corners on all the points at once are asked for.
    const wanted = (to: number) => breaks === 2 || to === n - 1;
    this.#left = points.map((to) => points.map((m) => (wanted(to) ? hinge(0, to, m) : undefined)));
    this.#right = points.map((from) => points.map((m) => (breaks === 2 ? hinge(from, n - 1, m) : undefined)));
    this.#second = points.map((m) => points.map((q) => (breaks === 2 ? this.#pair(m, q) : undefined)));
    const all = [this.#left, this.#right, this.#second].flat(2).filter((one) => one !== undefined);
    this.#hinges = new Hinges(all, n);
  }

  /** Fitted values at the first point, the breakpoints and the last point. */
  get corners(): Float64Array {
    return this.#fitted.values;
  }

  #pair(m: number, q: number): Hinge | undefined {
    const n = this.#x.length;
    if (!(m > 0 && q > m && q < n - 1)) return undefined;
    return new Hinge(this.#x, this.#weights, [0, n - 1], q, this.#left[n - 1]![m]!);
  }

  fit(y: ArrayLike<number>): boolean {
    this.#load(y);
    this.#runs.fit(this.#y, { inner: this.breakpoints.length === 2 });
    this.#hinges.load(this.#y);
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
  #load(y: ArrayLike<number>): void {
    let total = 0;
    let mean = 0;
    for (let i = 0; i < this.#y.length; i++) {
      total += this.#weights[i]!;
      mean += (this.#weights[i]! / total) * (y[i]! - mean);
    }
    let spread = 0;
    for (let i = 0; i < this.#y.length; i++) {
      this.#y[i] = y[i]! - mean;
      spread += this.#weights[i]! * this.#y[i]! ** 2;
    }
    this.#leastBend = LEAST_BEND * Math.sqrt(spread / total);
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
      const hinge = this.#left[n - 1]![m]!;
      if (hinge.bend > this.#leastBend) {
        this.#offer(this.#runs.sse[n - 1]! - hinge.gain, this.#x[m]!, NaN);
      }
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

  #bothInGaps(): void {
    const n = this.#x.length;
    const { intercept, slope, sse } = this.#runs;
    for (let i = 1; i < n - 4; i++) {
      for (let j = i + 2; j < n - 2; j++) {
        const inner = (i + 1) * n + j;
        const first = this.#meeting(i, intercept[i]!, slope[i]!, inner);
        if (Number.isNaN(first)) continue;
        const outer = (j + 1) * n + n - 1;
        const second = this.#meeting(j, intercept[inner]!, slope[inner]!, outer);
        if (!Number.isNaN(second)) this.#offer(sse[i]! + sse[inner]! + sse[outer]!, first, second);
      }
    }
  }

  #bothAtPoints(): void {
    const n = this.#x.length;
    for (let m = 1; m < n - 2; m++) {
      const first = this.#left[n - 1]![m]!;
      for (let q = m + 1; q < n - 1; q++) {
        const second = this.#second[m]![q]!;
        if (!(second.bend > this.#leastBend && second.bendOfFirst(first) > this.#leastBend)) continue;
        this.#offer(this.#runs.sse[n - 1]! - first.gain - second.gain, this.#x[m]!, this.#x[q]!);
      }
    }
  }

  #firstInGap(): void {
    const n = this.#x.length;
    const { intercept, slope, sse } = this.#runs;
    for (let i = 1; i < n - 3; i++) {
      const rest = (i + 1) * n + n - 1;
      for (let m = i + 2; m < n - 1; m++) {
        const hinge = this.#right[i + 1]![m]!;
        if (!(hinge.bend > this.#leastBend)) continue;
        const inner = hinge.interceptLeft(intercept[rest]!);
        const along = hinge.slopeLeft(slope[rest]!);
        const first = this.#crossing(i, intercept[i]!, slope[i]!, inner, along);
        if (!Number.isNaN(first)) this.#offer(sse[i]! + sse[rest]! - hinge.gain, first, this.#x[m]!);
      }
    }
  }

  #secondInGap(): void {
    const n = this.#x.length;
    const { intercept, slope, sse } = this.#runs;
    for (let j = 2; j < n - 2; j++) {
      const last = (j + 1) * n + n - 1;
      for (let m = 1; m < j; m++) {
        const hinge = this.#left[j]![m]!;
        if (!(hinge.bend > this.#leastBend)) continue;
        const inner = hinge.interceptLeft(intercept[j]!) - hinge.bend * this.#x[m]!;
        const second = this.#meeting(j, inner, hinge.slopeLeft(slope[j]!) + hinge.bend, last);
        if (!Number.isNaN(second)) this.#offer(sse[j]! - hinge.gain + sse[last]!, this.#x[m]!, second);
      }
    }
  }
}
