import { newtonBetween } from '../../numerics/bracketedNewton.ts';
import { DistinctGaps } from '../../numerics/distinctGaps.ts';
import { TrialGrowths } from './trialGrowths.ts';

/** A Newton step of this share of the growth is the last: what it leaves is as small a share of it as the slope's error. */
const LAST_STEP = 1e-7;

/** Hardly any readings are so far from the latest that more moves would find their best trial. */
const MOST_MOVES = 6;

/**
 * How well y = A + β·φ(z), φ(z) = (e^(g·z) − 1)/g, can fit for each growth g, with A and β at their best.
 *
 * What φ explains of the readings is the square of C = Σφ̃y/√Σφ̃², φ̃ being φ less its mean; at the best growth dC/dg
 * passes through 0. Of the trial growths the best is found with certainty, mostly without asking them all. The series
 * about it leads to within some 1e-9 of the best growth, and Newton's method on dC/dg itself, `at(g)`, from there: one
 * step, in which the slope may come from the series, as it only scales what is very small already. Allocates nothing
 * after construction.
 */
export class GrowthProfile {
  /** The best growth of the latest `fit`, or the end of the trials beyond which it lies. */
  growth: number = NaN;
  /** β and A at the best growth of the latest `fit`. */
  rise: number = NaN;
  start: number = NaN;
  readonly #z: Float64Array;
  readonly #shares: Float64Array;
  readonly #trials: TrialGrowths;
  /** Distinct distances between neighbours and e^(g·distance) of each. */
  readonly #gaps: DistinctGaps;
  readonly #factors: Float64Array;
  /** The best trial of the latest fit, probably nearly the best of the next; −1 before the first. */
  #latestTrial: i32 = -1;
  /** The readings less their mean, and the mean of their squares. */
  readonly #y: Float64Array;
  #meanY: number = NaN;
  #square: number = NaN;
  /** The growth `at` was last asked for, and how β and A change with it there. */
  #asked: number = NaN;
  #riseSlope: number = NaN;
  #startSlope: number = NaN;

  /** z ascending from 0, a weight for each. */
  constructor(z: Float64Array, weights: Float64Array) {
    const shares = sharesOf(weights);
    const gaps = new DistinctGaps(z);
    const trials = new TrialGrowths(z, shares);
    this.#z = z;
    this.#shares = shares;
    this.#trials = trials;
    this.#gaps = gaps;
    this.#factors = new Float64Array(gaps.count);
    this.#y = new Float64Array(z.length);
  }

  /** Forget which trial was best. */
  forget(): void {
    this.#latestTrial = -1;
  }

  /** Find the best growth for these readings; false when it lies outside what is tried. */
  fit(y: Float64Array): boolean {
    this.#load(y);
    if (!this.#moveToBest()) {
      this.#latestTrial = this.#trials.best(this.#y);
      this.#trials.expand(this.#latestTrial, this.#y);
    }
    const found = this.#refine(this.#latestTrial);
    this.#settle();
    return found;
  }

  #load(y: Float64Array): void {
    let mean: number = 0;
    for (let i = 0; i < y.length; i++) mean += this.#shares[i]! * y[i]!;
    let square: number = 0;
    for (let i = 0; i < y.length; i++) {
      const centred = y[i]! - mean;
      this.#y[i] = centred;
      square += this.#shares[i]! * centred * centred;
    }
    this.#meanY = mean;
    this.#square = square;
    this.#asked = NaN;
  }

  /** Move by the series from the latest best trial to that of these readings; false unless it certainly is that. */
  #moveToBest(): boolean {
    if (this.#latestTrial < 0) return false;
    for (let moves = 0; moves <= MOST_MOVES; moves++) {
      this.#trials.expand(this.#latestTrial, this.#y);
      const way = this.#trials.wayToBest();
      if (way === 0) return this.#trials.isBest(this.#square);
      if (Number.isNaN(way)) return false;
      this.#latestTrial += way as i32;
    }
    return false;
  }

  /**
   * From the best trial on, C² grows to one side. The second trial on that side, or the end, explains less than the
   * best: so the best growth lies between.
   */
  #refine(best: i32): boolean {
    const trials = this.#trials;
    const from = trials.growths[best]!;
    this.growth = from;
    const tilt = trials.tilt;
    if (tilt === 0) return trials.explained !== 0;
    const rises = tilt > 0;
    const further = rises === trials.explained > 0;
    if (best === (further ? trials.last : 0)) return false;
    const to = further
      ? trials.growths[Math.min(best + 2, trials.last) as i32]!
      : trials.growths[Math.max(best - 2, 0) as i32]!;
    const summit = trials.summit();
    const start = (summit - from) * (summit - to) < 0 ? summit : 0.5 * (from + to);
    const below = rises ? to : from;
    const above = rises ? from : to;
    this.growth = newtonBetween(this, 0, below, above, start, LAST_STEP * start);
    return true;
  }

  /**
   * Bring A and β from the growth `at` was last asked for to the best one. The last step is so short that its square
   * counts for nothing.
   */
  #settle(): void {
    const step = this.growth - this.#asked;
    if (!(Math.abs(step) <= LAST_STEP * this.growth)) {
      this.at(this.growth);
      return;
    }
    this.rise += step * this.#riseSlope;
    this.start += step * this.#startSlope;
  }

  /** dC/dg; A and β at this growth. */
  at(growth: number): number {
    const z = this.#z;
    const w = this.#shares;
    const y = this.#y;
    const gapOf = this.#gaps.of;
    const gaps = this.#gaps.sizes;
    const factors = this.#factors;
    for (let k = 0; k < factors.length; k++) factors[k] = Math.exp(growth * gaps[k]!);
    const inverse = 1 / growth;
    // e^(g·z), from point to point: stages are mostly equal steps, so that few exponentials are needed.
    let power: number = 1;
    // Weighted sums of φ and φ' = dφ/dg and of their products with y and each other, centred afterwards.
    let m0: number = 0;
    let m1: number = 0;
    let n0: number = 0;
    let n1: number = 0;
    let s00: number = 0;
    let s01: number = 0;
    // At the first point both are 0.
    for (let i = 1; i < z.length; i++) {
      power *= factors[gapOf[i]!]!;
      const phi = (power - 1) * inverse;
      const first = (z[i]! * power - phi) * inverse;
      const weightedPhi = w[i]! * phi;
      const weightedFirst = w[i]! * first;
      m0 += weightedPhi;
      m1 += weightedFirst;
      n0 += weightedPhi * y[i]!;
      n1 += weightedFirst * y[i]!;
      s00 += weightedPhi * phi;
      s01 += weightedPhi * first;
    }
    s00 -= m0 * m0;
    s01 -= m0 * m1;
    this.rise = n0 / s00;
    this.start = this.#meanY - this.rise * m0;
    // With K = n1 − β·s01 the derivative of C is K/√s00; β changes by (n1 − 2β·s01)/s00.
    this.#riseSlope = (n1 - 2 * this.rise * s01) / s00;
    this.#startSlope = -this.#riseSlope * m0 - this.rise * m1;
    this.#asked = growth;
    return (n1 - this.rise * s01) / Math.sqrt(s00);
  }

  /** Of `at`, from the series about the best trial. */
  slope(growth: number): number {
    return this.#trials.bend(growth);
  }
}

/** Weights as shares of their sum. */
function sharesOf(weights: Float64Array): Float64Array {
  let total: number = 0;
  for (let i = 0; i < weights.length; i++) total += weights[i]!;
  const shares = new Float64Array(weights.length);
  for (let i = 0; i < weights.length; i++) shares[i] = weights[i]! / total;
  return shares;
}
