import { Curve, type FitStatus } from './curve.ts';
import { GrowthProfile } from './growthProfile.ts';

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

  fit(y: Float64Array): FitStatus {
    const found = this.#profile.fit(y);
    this.leastRatio = NaN;
    this.growth = this.#profile.growth;
    this.rise = this.#profile.rise;
    this.start = this.#profile.start;
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
    return Math.max(this.start, this.at(this.hi));
  }

  protected lastRise(level: number, from: number): number {
    if (!(this.rise > 0 && level <= this.at(this.hi))) return NaN;
    const x = this.lo + Math.log1p((this.growth * (level - this.start)) / this.rise) / this.rate;
    return x >= from ? Math.min(x, this.hi) : NaN;
  }

  upwardCrossings(level: number): i32 {
    return this.rise > 0 && this.start < level && this.at(this.hi) >= level ? 1 : 0;
  }

  protected lowestTouch(slope: number, from: number): number {
    const x = this.lo + Math.log((slope * this.#width) / this.rise) / this.rate;
    return this.rise > 0 && x > from && x < this.hi ? x : NaN;
  }
}
