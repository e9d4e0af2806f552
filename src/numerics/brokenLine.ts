import { BestLine } from './bestLine.ts';
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
 *           or at a point, and every such combination is tried unless lines that need not meet leave more there than
 *           the best does, or it is the end of a gap in which they meet; never worse than a grid
 *           (tests/numerics/brokenLine.test.ts)
 * Bends     when the best line of all bends downward somewhere, the best of the combinations that nowhere do is
 *           taken; a line with fewer bends may then fit better than it (our rule)
 * Ties      of equally good breakpoints that were tried the smallest first one, then the smallest second one (our rule)
 * Returns   false when no combination bends upward everywhere
 * Cost      O(n) when the lines that need not meet rule out most gaps at a glance, as in draws of one test; n³ if they
 *           rule out none; allocates nothing after construction
 * Source    Hudson 1966, J Am Stat Assoc 61:1097–1129 (from memory)
 */
export class BrokenLine {
  /** Of the latest fit, ascending. */
  readonly breakpoints: Float64Array;
  /** Fitted values at the first point, the breakpoints and the last point. */
  readonly corners: Float64Array;
  readonly #perWeight: number;
  /** The points on the scale of −1 to 1. */
  readonly #x: Float64Array;
  readonly #middle: number;
  readonly #half: number;
  readonly #runs: RunLines;
  readonly #hinges: Hinges;
  readonly #best: BestLine = new BestLine();
  #leastBend: number = NaN;
  /** Where the breaks of the latest best two were, as `#tryTwo` counts. */
  #likelyFirst: i32 = 1;
  #likelySecond: i32 = 1;

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
    this.#perWeight = 1 / total;
    this.breakpoints = new Float64Array(breaks);
    this.corners = new Float64Array(breaks + 2);
    const runs = new RunLines(scaled, weights);
    this.#runs = runs;
    this.#hinges = new Hinges(scaled, weights, runs, breaks);
  }

  fit(y: Float64Array): boolean {
    this.#runs.fitOuter(y);
    const spread = this.#runs.spread;
    this.#leastBend = LEAST_BEND * Math.sqrt(spread * this.#perWeight);
    this.#best.restart(TIE * spread);
    if (this.breakpoints.length === 1) this.#oneBreak();
    else this.#twoBreaks();
    if (this.#best.sse === Infinity) return false;
    this.#tell(y[0]!);
    return true;
  }

  /** The best line on the scale of the points and readings. */
  #tell(first: number): void {
    const best = this.#best;
    const corners = this.corners;
    const last = corners.length - 1;
    let value = first + best.intercept + best.slope * this.#x[0]!;
    let slope = best.slope + best.firstBend;
    corners[0] = value;
    value += best.slope * (best.first - this.#x[0]!);
    corners[1] = value;
    this.breakpoints[0] = this.#middle + this.#half * best.first;
    let from = best.first;
    if (last === 3) {
      value += slope * (best.second - from);
      corners[2] = value;
      this.breakpoints[1] = this.#middle + this.#half * best.second;
      slope += best.secondBend;
      from = best.second;
    }
    corners[last] = value + slope * (this.#x[this.#x.length - 1]! - from);
  }

  /** Whether lines that leave this sum of squares, though they need not meet, can no longer be the best. */
  #beaten(least: number): boolean {
    return least > this.#best.most;
  }

  /** What lines that need not meet leave with a break in the gap after point i. */
  #leastAlone(i: i32): number {
    const n = this.#x.length;
    return this.#runs.sse[i]! + this.#runs.sse[(i + 1) * n + n - 1]!;
  }

  /** The most promising gap first: mostly it leaves nothing else to try. */
  #oneBreak(): void {
    const n = this.#x.length;
    let likely = 1;
    let least = this.#leastAlone(1);
    for (let i = 2; i < n - 1; i++) {
      const leastHere = this.#leastAlone(i);
      if (leastHere >= least) continue;
      least = leastHere;
      likely = i;
    }
    this.#tryOne(likely);
    for (let i = 1; i < n - 1; i++) {
      if (i !== likely && !this.#beaten(this.#leastAlone(i))) this.#tryOne(i);
    }
  }

  /** A break in the gap after point i, or at that point unless lines meet in the gap: they are better. */
  #tryOne(i: i32): void {
    const n = this.#x.length;
    const runs = this.#runs;
    const intercept = runs.intercept(i);
    const slope = runs.slope(i);
    const right = (i + 1) * n + n - 1;
    const drop = intercept - runs.intercept(right);
    const gained = runs.slope(right) - slope;
    if (i < n - 2 && this.#meetInGap(i, drop, gained)) {
      this.#best.offer(this.#leastAlone(i), drop / gained, NaN, intercept, slope, gained, NaN);
      return;
    }
    const all = n - 1;
    const hinges = this.#hinges;
    const row = hinges.left(all, i);
    const bend = hinges.bend(row);
    if (!(bend > this.#leastBend)) return;
    this.#best.offer(
      runs.sse[all]! - hinges.gain(row, bend),
      this.#x[i]!,
      NaN,
      runs.intercept(all) + hinges.interceptChange(row, bend),
      runs.slope(all) + hinges.slopeChange(row, bend),
      bend,
      NaN,
    );
  }

  /**
   * Whether two lines meet inside the gap after point i and bend up there: the left one lies higher by `drop` at x = 0
   * and is less steep by `bend`, so they meet at drop/bend.
   */
  #meetInGap(i: i32, drop: number, bend: number): boolean {
    return bend > this.#leastBend && drop > bend * this.#x[i]! && drop < bend * this.#x[i + 1]!;
  }

  /**
   * Where the latest best were first: seldom far from the best now, they leave little else to try. A longer run leaves
   * more than its part, so where one end run is beaten, those of longer ends are as well.
   */
  #twoBreaks(): void {
    const n = this.#x.length;
    const sse = this.#runs.sse;
    const likelyFirst = this.#likelyFirst;
    const likelySecond = this.#likelySecond;
    this.#tryTwo(likelyFirst, likelySecond);
    for (let i = 1; i < n - 2 && !this.#beaten(sse[i]!); i++) {
      for (let j = n - 3; j >= i && !this.#beaten(sse[i]! + sse[(j + 1) * n + n - 1]!); j--) {
        if (i !== likelyFirst || j !== likelySecond) this.#tryTwo(i, j);
      }
    }
  }

  /**
   * A first break at point i or in the gap after it, a second one in the gap after point j or at its end. Where lines
   * meet in a gap they are the best with a break there or at its ends, so that its end need not be tried.
   */
  #tryTwo(i: i32, j: i32): void {
    const best = this.#best.sse;
    if (j > i) {
      const n = this.#x.length;
      const sse = this.#runs.sse;
      const inner = (i + 1) * n + j;
      this.#runs.fitInner(i + 1, j);
      const least = sse[i]! + sse[inner]! + sse[(j + 1) * n + n - 1]!;
      if (this.#beaten(least)) return;
    }
    if (!(j > i + 1 && this.#bothInGaps(i, j))) {
      const firstSettled = j > i && this.#secondInGap(i, j);
      const secondSettled = j > i && this.#firstInGap(i, j);
      if (!firstSettled && !secondSettled) this.#bothAtPoints(i, j + 1);
    }
    if (this.#best.sse < best) {
      this.#likelyFirst = i;
      this.#likelySecond = j;
    }
  }

  #bothInGaps(i: i32, j: i32): boolean {
    const n = this.#x.length;
    const runs = this.#runs;
    const inner = (i + 1) * n + j;
    const last = (j + 1) * n + n - 1;
    const intercept = runs.intercept(i);
    const slope = runs.slope(i);
    const innerIntercept = runs.intercept(inner);
    const along = runs.slope(inner);
    const firstDrop = intercept - innerIntercept;
    const firstBend = along - slope;
    if (!this.#meetInGap(i, firstDrop, firstBend)) return false;
    const secondDrop = innerIntercept - runs.intercept(last);
    const secondBend = runs.slope(last) - along;
    if (!this.#meetInGap(j, secondDrop, secondBend)) return false;
    const sse = runs.sse[i]! + runs.sse[inner]! + runs.sse[last]!;
    this.#best.offer(
      sse,
      firstDrop / firstBend,
      secondDrop / secondBend,
      intercept,
      slope,
      firstBend,
      secondBend,
    );
    return true;
  }

  /** The first at point i; returns whether the second at a point, too, cannot be better. */
  #secondInGap(i: i32, j: i32): boolean {
    const n = this.#x.length;
    const hinges = this.#hinges;
    const runs = this.#runs;
    const last = (j + 1) * n + n - 1;
    const row = hinges.left(j, i);
    const bend = hinges.bend(row);
    const sse = runs.sse[j]! - hinges.gain(row, bend) + runs.sse[last]!;
    if (this.#beaten(sse)) return true;
    if (!(bend > this.#leastBend)) return false;
    const intercept = runs.intercept(j) + hinges.interceptChange(row, bend);
    const slope = runs.slope(j) + hinges.slopeChange(row, bend);
    const drop = intercept - bend * this.#x[i]! - runs.intercept(last);
    const secondBend = runs.slope(last) - slope - bend;
    if (!this.#meetInGap(j, drop, secondBend)) return false;
    this.#best.offer(sse, this.#x[i]!, drop / secondBend, intercept, slope, bend, secondBend);
    return true;
  }

  /** The same with the second at point j + 1. */
  #firstInGap(i: i32, j: i32): boolean {
    const n = this.#x.length;
    const hinges = this.#hinges;
    const runs = this.#runs;
    const rest = (i + 1) * n + n - 1;
    const row = hinges.right(i + 1, j + 1);
    const bend = hinges.bend(row);
    const sse = runs.sse[i]! + runs.sse[rest]! - hinges.gain(row, bend);
    if (this.#beaten(sse)) return true;
    if (!(bend > this.#leastBend)) return false;
    const intercept = runs.intercept(i);
    const slope = runs.slope(i);
    const drop = intercept - runs.intercept(rest) - hinges.interceptChange(row, bend);
    const firstBend = runs.slope(rest) + hinges.slopeChange(row, bend) - slope;
    if (!this.#meetInGap(i, drop, firstBend)) return false;
    this.#best.offer(sse, drop / firstBend, this.#x[j + 1]!, intercept, slope, firstBend, bend);
    return true;
  }

  #bothAtPoints(m: i32, q: i32): void {
    const all = this.#x.length - 1;
    const hinges = this.#hinges;
    const runs = this.#runs;
    const firstRow = hinges.left(all, m);
    const alone = hinges.bend(firstRow);
    const row = hinges.second(m, q);
    const bend = hinges.secondBend(row, firstRow, alone);
    if (!(bend > this.#leastBend)) return;
    const first = alone + hinges.firstBendChange(row, bend);
    if (!(first > this.#leastBend)) return;
    this.#best.offer(
      runs.sse[all]! - hinges.gain(firstRow, alone) - hinges.gain(row, bend),
      this.#x[m]!,
      this.#x[q]!,
      runs.intercept(all) + hinges.interceptChange(firstRow, first) + hinges.interceptChange(row, bend),
      runs.slope(all) + hinges.slopeChange(firstRow, first) + hinges.slopeChange(row, bend),
      first,
      bend,
    );
  }
}
