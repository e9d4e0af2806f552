/** Growth rates tried before refining, as multiples of the whole range: nearly straight to one steep last step. */
const LEAST_GROWTH = 0.02;
const GREATEST_GROWTH = 30;
const TRIALS = 60;

/**
 * How well y = A + β·φ(z), φ(z) = expm1(g·z)/g, can fit for each growth g, with A and β at their best.
 *
 * The share of the readings' variation that φ explains is N²/S with N = Σφ̃y and S = Σφ̃², φ̃ being φ less its
 * mean. `at(g)` is the derivative of N/√S up to a positive factor, so the best g is where it passes through 0;
 * `slope(g)` is its derivative, for Newton's method. Allocates nothing after construction.
 */
export class GrowthProfile {
  /** Bracket of the best growth after `search`. */
  from = NaN;
  to = NaN;
  /** β and A at the latest growth that `at` was asked for. */
  rise = NaN;
  start = NaN;
  readonly #z: Float64Array;
  readonly #weights: Float64Array;
  readonly #trials: Float64Array;
  /** For each trial growth the unit vector that y is projected on; weights included. */
  readonly #bases: Float64Array;
  readonly #y: Float64Array;
  #meanY = 0;
  #slope = NaN;

  constructor(z: Float64Array, weights?: ArrayLike<number>) {
    this.#z = z;
    this.#weights = Float64Array.from(z, (_, i) => weights?.[i] ?? 1);
    const total = this.#weights.reduce((sum, w) => sum + w, 0);
    this.#weights = this.#weights.map((w) => w / total);
    this.#trials = Float64Array.from(
      { length: TRIALS },
      (_, k) => LEAST_GROWTH * (GREATEST_GROWTH / LEAST_GROWTH) ** (k / (TRIALS - 1)),
    );
    this.#y = new Float64Array(z.length);
    this.#bases = new Float64Array(TRIALS * z.length);
    for (let k = 0; k < TRIALS; k++) this.#bases.set(this.#basis(this.#trials[k]!), k * z.length);
  }

  #basis(growth: number): Float64Array {
    const phi = this.#z.map((z) => Math.expm1(growth * z) / growth);
    const mean = phi.reduce((sum, value, i) => sum + this.#weights[i]! * value, 0);
    const length = Math.sqrt(phi.reduce((sum, value, i) => sum + this.#weights[i]! * (value - mean) ** 2, 0));
    return phi.map((value, i) => (this.#weights[i]! * (value - mean)) / length);
  }

  /** Bracket the best growth for these readings; false when it lies outside what is tried (`from` = that end). */
  search(y: Float64Array): boolean {
    this.#center(y);
    const n = y.length;
    let best = 0;
    let bestShare = -1;
    for (let k = 0; k < TRIALS; k++) {
      let dot = 0;
      for (let i = 0, j = k * n; i < n; i++, j++) dot += this.#bases[j]! * this.#y[i]!;
      if (dot * dot > bestShare) {
        bestShare = dot * dot;
        best = k;
      }
    }
    return this.#bracket(best);
  }

  /** The better of the two neighbouring intervals is the one into which the explained share still grows. */
  #bracket(best: number): boolean {
    this.from = this.#trials[best]!;
    this.to = this.from;
    const climb = this.at(this.from) * this.rise;
    const neighbour = climb > 0 ? best + 1 : best - 1;
    if (!(climb !== 0) || neighbour < 0 || neighbour >= TRIALS) return false;
    this.to = this.#trials[neighbour]!;
    return this.at(this.to) * this.rise * climb < 0;
  }

  #center(y: Float64Array): void {
    let mean = 0;
    for (let i = 0; i < y.length; i++) mean += this.#weights[i]! * y[i]!;
    for (let i = 0; i < y.length; i++) this.#y[i] = y[i]! - mean;
    this.#meanY = mean;
  }

  at(growth: number): number {
    const z = this.#z;
    const w = this.#weights;
    // Weighted sums of φ, φ' = dφ/dg and φ'' and of their products, centred afterwards.
    let m0 = 0;
    let m1 = 0;
    let m2 = 0;
    let n0 = 0;
    let n1 = 0;
    let n2 = 0;
    let s00 = 0;
    let s01 = 0;
    let s11 = 0;
    let s02 = 0;
    for (let i = 0; i < z.length; i++) {
      const gz = growth * z[i]!;
      const grown = Math.expm1(gz);
      const phi = grown / growth;
      const tilted = gz * (grown + 1);
      const first = (tilted - grown) / (growth * growth);
      const second = ((gz - 2) * tilted + 2 * grown) / (growth * growth * growth);
      const weight = w[i]!;
      m0 += weight * phi;
      m1 += weight * first;
      m2 += weight * second;
      n0 += weight * phi * this.#y[i]!;
      n1 += weight * first * this.#y[i]!;
      n2 += weight * second * this.#y[i]!;
      s00 += weight * phi * phi;
      s01 += weight * phi * first;
      s11 += weight * first * first;
      s02 += weight * phi * second;
    }
    s00 -= m0 * m0;
    s01 -= m0 * m1;
    s11 -= m1 * m1;
    s02 -= m0 * m2;
    this.rise = n0 / s00;
    this.start = this.#meanY - this.rise * m0;
    this.#slope = n2 * s00 + n1 * s01 - n0 * (s11 + s02);
    return n1 * s00 - n0 * s01;
  }

  /** Derivative of the value `at` last returned, which is where Newton's method stands. */
  slope(_growth: number): number {
    return this.#slope;
  }
}
