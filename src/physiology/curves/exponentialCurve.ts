import { Curve, type FitStatus } from './curve.ts';
import { GrowthProfile } from './growthProfile.ts';

/** Of Newton's method for Lambert's equation: the last step, as a share of w, and the most steps. */
const LAST_STEP = 1e-8;
const MOST_STEPS: i32 = 50;

/**
 * Exponential plus constant, lactate = a + b·e^(c·x), by exact least squares.
 *
 * Model     y = A + β·expm1(g·z)/g on z = (x − lo)/(hi − lo); a straight line is the smooth limit g → 0
 * Shape     x ascending, n >= 4; weights one per point
 * Stops     g to about 1 unit in its 14th digit; 'singular' when the best growth lies outside 0.02 to 30 ("no
 *           curvature", "only the last point rises"); 'not-convex' when the best curve falls (β <= 0)
 * Accuracy  10 digits against 40-digit arithmetic (tests/physiology/curves/references.test.ts)
 * Source    Hughson, Weisiger & Swanson 1987, J Appl Physiol 62:1975–1981 (from memory) for the curve;
 *           Golub & Pereyra 1973, SIAM J Numer Anal 10:413–432 (from memory) for projecting A and β out
 */
export class ExponentialCurve extends Curve {
  /** Lactate at lo. */
  start: number = NaN;
  /** Slope at lo per whole range (β). */
  rise: number = NaN;
  /** Growth over the whole range (g = c·(hi − lo)). */
  growth: number = NaN;
  /** Lactate at hi, which most readings of the curve ask for. */
  #atHi: number = NaN;
  readonly #width: number;
  readonly #profile: GrowthProfile;

  constructor(x: Float64Array, weights: Float64Array) {
    super('exponential', 3, x[0]!, x[x.length - 1]!);
    const lo = x[0]!;
    const width = x[x.length - 1]! - lo;
    const z = new Float64Array(x.length);
    for (let i = 0; i < x.length; i++) z[i] = (x[i]! - lo) / width;
    this.#width = width;
    this.#profile = new GrowthProfile(z, weights);
  }

  override forget(): void {
    this.#profile.forget();
  }

  fit(y: Float64Array): FitStatus {
    const found = this.#profile.fit(y);
    this.leastRatio = NaN;
    this.growth = this.#profile.growth;
    this.rise = this.#profile.rise;
    this.start = this.#profile.start;
    this.#atHi = this.#rising(this.hi);
    this.status = found ? 'ok' : 'singular';
    if (found && !(this.rise > 0)) this.status = 'not-convex';
    return this.status;
  }

  /** The a of a + b·e^(c·x), mmol/L: what the curve flattens out to at low intensity. */
  get constant(): number {
    return this.start - this.rise / this.growth;
  }

  /** The b of a + b·e^(c·x) multiplied by e^(c·lo): the exponential part at the first stage, mmol/L. */
  get amplitude(): number {
    return this.rise / this.growth;
  }

  /** The c of a + b·e^(c·x), per unit of intensity. */
  get rate(): number {
    return this.growth / this.#width;
  }

  at(x: number): number {
    if (x === this.lo) return this.start;
    return x === this.hi ? this.#atHi : this.#rising(x);
  }

  #rising(x: number): number {
    return this.start + (this.rise * Math.expm1(this.rate * (x - this.lo))) / this.growth;
  }

  slope(x: number): number {
    return (this.rise / this.#width) * Math.exp(this.rate * (x - this.lo));
  }

  curvature(x: number): number {
    return this.rate * this.slope(x);
  }

  lowest(): number {
    return this.rise > 0 ? this.lo : this.hi;
  }

  peak(): number {
    return Math.max(this.start, this.#atHi);
  }

  protected lastRise(level: number, from: number): number {
    if (!(this.rise > 0 && level <= this.#atHi)) return NaN;
    const x = this.lo + Math.log1p((this.growth * (level - this.start)) / this.rise) / this.rate;
    return x >= from ? Math.min(x, this.hi) : NaN;
  }

  upwardCrossings(level: number): i32 {
    return this.rise > 0 && this.start < level && this.#atHi >= level ? 1 : 0;
  }

  protected lowestTouch(slope: number, from: number): number {
    const x = this.lo + Math.log((slope * this.#width) / this.rise) / this.rate;
    return this.rise > 0 && x > from && x < this.hi ? x : NaN;
  }

  /**
   * Where x·f′(x) − f(x) is 0 between two points, of a curve that is positive far to the left; NaN if it is not there.
   *
   * Model     with f = a + b·e^(c·x) and w = c·x − 1 it is w·e^w = a/(b·e), Lambert's equation: Newton's method on
   *           w + ln w, from below, where it never turns back
   * Source    Corless, Gonnet, Hare, Jeffrey & Knuth 1996, Adv Comput Math 5:329–359 (from memory)
   */
  touchingFromOrigin(left: number, right: number): number {
    const level = Math.log(this.constant / this.amplitude) + this.rate * this.lo - 1;
    let w = level > 1 ? level - Math.log(level) : 1 / (1 + Math.exp(-level));
    let last = false;
    for (let steps = 0; steps < MOST_STEPS && !last; steps++) {
      const next = (w * (1 + level - Math.log(w))) / (1 + w);
      // A step of this share leaves its square.
      last = Math.abs(next - w) <= LAST_STEP * w;
      w = next;
    }
    const x = (w + 1) / this.rate;
    return x > left && x < right ? x : NaN;
  }
}
