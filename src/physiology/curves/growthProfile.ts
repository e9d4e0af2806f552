import { newtonBetween } from '../../numerics/bracketedNewton.ts';
import { distinctGaps } from '../../numerics/distinctGaps.ts';

/** Growth rates tried before refining, as multiples of the whole range: nearly straight to one steep last step. */
const LEAST_GROWTH = 0.02;
const GREATEST_GROWTH = 30;
const TRIALS = 96;

/** A Newton step of this share of the growth is the last: it leaves an error of about its square. */
const LAST_STEP = 1e-7;

/**
 * How well y = A + β·φ(z), φ(z) = (e^(g·z) − 1)/g, can fit for each growth g, with A and β at their best.
 *
 * What φ explains of the readings is the square of C = Σφ̃y/√Σφ̃², φ̃ being φ less its mean: one projection on a
 * unit vector that depends on g alone, so those of the trial growths are made once. `at(g)` is dC/dg, which
 * passes through 0 at the best growth, and `slope(g)` its derivative. Allocates nothing after construction.
 */
export class GrowthProfile {
  /** The best growth of the latest `fit`, or the end of the trials beyond which it lies. */
  growth = NaN;
  /** β and A at the best growth of the latest `fit`. */
  rise = NaN;
  start = NaN;
  readonly #z: Float64Array;
  readonly #weights: Float64Array;
  readonly #trials: Float64Array;
  /** For each trial growth the vector whose product with y is C, and the one whose product is dC/dg. */
  readonly #bases: Float64Array;
  readonly #tilts: Float64Array;
  /** Distinct distances between neighbours, which of them each point has to the one before, and e^(g·distance) of each. */
  readonly #gaps: Float64Array;
  readonly #gapOf: Uint8Array;
  readonly #factors: Float64Array;
  /** Room for φ̃ and its derivative by g. */
  readonly #phi: Float64Array;
  readonly #first: Float64Array;
  /** Whether the tilt of each trial growth has been made: a fit needs two of them. */
  readonly #tilted: boolean[];
  /** The way on the sphere of the bases from the first trial to each, from trial to trial. */
  readonly #way: Float64Array;
  /** The best trial of the latest fit: probably nearly the best of the next. */
  #latestTrial = TRIALS >> 1;
  readonly #y: Float64Array;
  #meanY = NaN;
  #slope = NaN;
  /** The growth `at` was last asked for, and how β and A change with it there. */
  #asked = NaN;
  #riseSlope = NaN;
  #startSlope = NaN;

  constructor(z: Float64Array, weights?: ArrayLike<number>) {
    this.#z = z;
    const total = z.reduce((sum, _, i) => sum + (weights?.[i] ?? 1), 0);
    this.#weights = z.map((_, i) => (weights?.[i] ?? 1) / total);
    this.#y = new Float64Array(z.length);
    const { gaps, gapOf } = distinctGaps(z);
    this.#gaps = gaps;
    this.#gapOf = gapOf;
    this.#factors = new Float64Array(gaps.length);
    this.#trials = new Float64Array(TRIALS);
    this.#bases = new Float64Array(TRIALS * z.length);
    this.#tilts = new Float64Array(TRIALS * z.length);
    this.#tilted = new Array(TRIALS).fill(false);
    this.#phi = new Float64Array(z.length);
    this.#first = new Float64Array(z.length);
    this.#way = new Float64Array(TRIALS);
    for (let k = 0; k < TRIALS; k++) this.#makeBase(k);
  }

  #makeBase(k: number): void {
    const growth = LEAST_GROWTH * (GREATEST_GROWTH / LEAST_GROWTH) ** (k / (TRIALS - 1));
    this.#trials[k] = growth;
    const size = this.#fillPhi(growth);
    const at = k * this.#z.length;
    for (let i = 0; i < this.#z.length; i++) {
      this.#bases[at + i] = (this.#weights[i]! * this.#phi[i]!) / size;
    }
    if (k > 0) this.#way[k] = this.#way[k - 1]! + this.#gapBefore(k);
  }

  /** From the base of a trial to the one before: the bases hold the weights once, a distance needs them halved. */
  #gapBefore(k: number): number {
    const n = this.#z.length;
    let square = 0;
    for (let i = 0; i < n; i++) {
      const apart = this.#bases[k * n + i]! - this.#bases[(k - 1) * n + i]!;
      square += apart ** 2 / this.#weights[i]!;
    }
    return Math.sqrt(square);
  }

  /** Write φ̃ of this growth; returns its size √Σφ̃². */
  #fillPhi(growth: number): number {
    for (let i = 0; i < this.#z.length; i++) this.#phi[i] = Math.expm1(growth * this.#z[i]!) / growth;
    this.#centre(this.#phi);
    return Math.sqrt(this.#product(this.#phi, this.#phi));
  }

  #makeTilt(k: number): void {
    this.#tilted[k] = true;
    const growth = this.#trials[k]!;
    const size = this.#fillPhi(growth);
    const first = this.#first;
    for (let i = 0; i < first.length; i++) {
      const gz = growth * this.#z[i]!;
      first[i] = (gz * Math.exp(gz) - Math.expm1(gz)) / growth ** 2;
    }
    this.#centre(first);
    const shared = this.#product(this.#phi, first) / size ** 2;
    const at = k * first.length;
    for (let i = 0; i < first.length; i++) {
      this.#tilts[at + i] = (this.#weights[i]! * (first[i]! - shared * this.#phi[i]!)) / size;
    }
  }

  #product(a: Float64Array, b: Float64Array): number {
    let sum = 0;
    for (let i = 0; i < a.length; i++) sum += this.#weights[i]! * a[i]! * b[i]!;
    return sum;
  }

  #centre(values: Float64Array): void {
    let mean = 0;
    for (let i = 0; i < values.length; i++) mean += this.#weights[i]! * values[i]!;
    for (let i = 0; i < values.length; i++) values[i]! -= mean;
  }

  /** Find the best growth for these readings; false when it lies outside what is tried. */
  fit(y: Float64Array): boolean {
    this.#load(y);
    const found = this.#refine(this.#bestTrial());
    this.#settle();
    return found;
  }

  #load(y: Float64Array): void {
    let mean = 0;
    for (let i = 0; i < y.length; i++) mean += this.#weights[i]! * y[i]!;
    for (let i = 0; i < y.length; i++) this.#y[i] = y[i]! - mean;
    this.#meanY = mean;
    this.#asked = NaN;
  }

  /**
   * The trial growth that explains most of the readings. Readings and bases count as points on one sphere, of which
   * C² tells the distance; a trial passes over all those behind it that lie too near to it to come nearer to the
   * readings than the nearest known.
   */
  #bestTrial(): number {
    const perSize = 1 / Math.sqrt(this.#product(this.#y, this.#y));
    let best = this.#latestTrial;
    let nearest = this.#distance(best, perSize);
    for (let k = 0; k < TRIALS; ) {
      const distance = this.#distance(k, perSize);
      if (distance < nearest) {
        best = k;
        nearest = distance;
      }
      const reach = this.#way[k]! + distance - nearest;
      for (k++; k < TRIALS && this.#way[k]! < reach; ) k++;
    }
    this.#latestTrial = best;
    return best;
  }

  /** From the readings, made of size 1, to the base of a trial or its mirror image, whichever is nearer. */
  #distance(k: number, perSize: number): number {
    const explained = Math.abs(this.#dot(this.#bases, k)) * perSize;
    return Math.sqrt(Math.max(0, 2 - 2 * explained));
  }

  #dot(table: Float64Array, k: number): number {
    const n = this.#y.length;
    let sum = 0;
    for (let i = 0, j = k * n; i < n; i++, j++) sum += table[j]! * this.#y[i]!;
    return sum;
  }

  /** dC/dg at a trial growth. */
  #tiltOf(k: number): number {
    if (!this.#tilted[k]) this.#makeTilt(k);
    return this.#dot(this.#tilts, k);
  }

  /** The best growth lies on the side of the best trial on which the explained part still grows. */
  #refine(best: number): boolean {
    const sign = Math.sign(this.#dot(this.#bases, best));
    const here = this.#tiltOf(best);
    const neighbour = sign * here > 0 ? best + 1 : best - 1;
    this.growth = this.#trials[best]!;
    if (here === 0) return sign !== 0;
    if (neighbour < 0 || neighbour >= TRIALS) return false;
    const there = this.#tiltOf(neighbour);
    if (here < 0 === there < 0) return false;
    const beyond = 2 * best - neighbour;
    const behind = beyond < 0 || beyond >= TRIALS ? NaN : this.#tiltOf(beyond);
    const share = rootBetween(here, there, behind);
    const from = this.#trials[best]!;
    const to = this.#trials[neighbour]!;
    const start = from * Math.exp(share * Math.log(to / from));
    const below = here < 0 ? from : to;
    const above = here < 0 ? to : from;
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

  at(growth: number): number {
    const z = this.#z;
    const w = this.#weights;
    const y = this.#y;
    const gapOf = this.#gapOf;
    const factors = this.#factors;
    for (let k = 0; k < factors.length; k++) factors[k] = Math.exp(growth * this.#gaps[k]!);
    const inverse = 1 / growth;
    // e^(g·z), from point to point: stages are mostly equal steps, so that few exponentials are needed.
    let power = 1;
    // Weighted sums of φ, φ' = dφ/dg and φ'' and of their products with y and each other, centred afterwards.
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
      power *= factors[gapOf[i]!]!;
      const phi = (power - 1) * inverse;
      const first = (z[i]! * power - phi) * inverse;
      const second = (z[i]! * z[i]! * power - 2 * first) * inverse;
      const weight = w[i]!;
      const weightedY = weight * y[i]!;
      m0 += weight * phi;
      m1 += weight * first;
      m2 += weight * second;
      n0 += weightedY * phi;
      n1 += weightedY * first;
      n2 += weightedY * second;
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
    // With K = n1 − β·s01 the derivative of C is K/√s00; β changes by (n1 − 2β·s01)/s00.
    const size = Math.sqrt(s00);
    const climb = n1 - this.rise * s01;
    this.#riseSlope = (n1 - 2 * this.rise * s01) / s00;
    const change = n2 - s01 * this.#riseSlope - this.rise * (s11 + s02);
    this.#slope = (change - (climb * s01) / s00) / size;
    this.#asked = growth;
    this.#startSlope = -this.#riseSlope * m0 - this.rise * m1;
    return climb / size;
  }

  /** Derivative at the growth `at` was last asked for, which is where Newton's method stands. */
  slope(_growth: number): number {
    return this.#slope;
  }
}

/**
 * Where a function with these values at 0, at 1 and at −1 is 0, as a share of the way from 0 to 1: by the parabola of
 * the inverse function, or by a straight line where that leads outside or there is no value at −1.
 */
function rootBetween(here: number, there: number, behind: number): number {
  const straight = here / (here - there);
  const curved =
    (here * behind) / ((there - here) * (there - behind)) -
    (here * there) / ((behind - here) * (behind - there));
  return curved > 0 && curved < 1 ? curved : straight;
}
