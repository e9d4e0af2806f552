import { GrowthSeries, TERMS } from './growthSeries.ts';

/** Growth rates tried before refining, as multiples of the whole range: nearly straight to one steep last step. */
const LEAST_GROWTH = 0.02;
const GREATEST_GROWTH = 30;
const TRIALS: i32 = 96;
/** From trial to trial, in ln g. */
const LOG_STEP = Math.log(GREATEST_GROWTH / LEAST_GROWTH) / (TRIALS - 1);

/** C² is much like a parabola as a function of ln(g + this). */
const BESIDE = 2;

/**
 * Trial growths of φ(z) = (e^(g·z) − 1)/g, and what φ explains of readings at and about each.
 *
 * Model     C(g) = y·b(g), b being φ less its mean and divided by its size: C² is the part of Σy² that φ explains.
 *           b depends on g alone, so C(g·(1 + ε)) = Σ cₘ·εᵐ about a trial, where each cₘ is a product of y with a
 *           vector that is made once
 * Shape     z ascending from 0; shares are weights that sum to 1; y less its weighted mean
 * Cost      the b of all trials are made at once, the series about a trial and its bounds when they are first asked
 *           for; then 7 products with y and no exponential. Allocates nothing after construction
 */
export class TrialGrowths {
  /** The greatest is the one of this index. */
  readonly last: i32 = TRIALS - 1;
  readonly growths: Float64Array;
  readonly #shares: Float64Array;
  /** For each trial b₀ at each point, times the point's share: a product with y is a plain sum. */
  readonly #bases: Float64Array;
  /** For each trial and each point b₀, b₁, 2b₂, 3b₃ … likewise: b₀ and what the derivative by ε is made of. */
  readonly #terms: Float64Array;
  /** 1 for each trial whose series has been made. */
  readonly #made: Int32Array;
  /** What `isBest` needs of each trial, see there, and 1 for each trial of which it has been made. */
  readonly #perRise: Float64Array;
  readonly #perFall: Float64Array;
  readonly #perRest: Float64Array;
  readonly #bounded: Int32Array;
  readonly #maker: GrowthSeries;
  /** The trial that was expanded last, and c₀, c₁, 2c₂, 3c₃ … there. */
  #trial: i32 = 0;
  readonly #series: Float64Array;
  /** First and second derivative by ε at the ε asked for last. */
  #climb: number = NaN;
  #bend: number = NaN;

  constructor(z: Float64Array, shares: Float64Array) {
    this.growths = new Float64Array(TRIALS);
    this.#shares = shares;
    this.#bases = new Float64Array(TRIALS * z.length);
    this.#terms = new Float64Array(TRIALS * TERMS * z.length);
    this.#made = new Int32Array(TRIALS);
    this.#perRise = new Float64Array(TRIALS);
    this.#perFall = new Float64Array(TRIALS);
    this.#perRest = new Float64Array(TRIALS);
    this.#bounded = new Int32Array(TRIALS);
    this.#series = new Float64Array(TERMS);
    this.#maker = new GrowthSeries(z, shares);
    for (let k = 0; k < TRIALS; k++) {
      const steps: number = k;
      this.growths[k] = LEAST_GROWTH * Math.exp(steps * LOG_STEP);
      this.#makeBase(k, z);
    }
  }

  /** The trial that explains most of y, by asking each. */
  best(y: Float64Array): i32 {
    let best = 0;
    let most: number = -1;
    for (let k = 0; k < TRIALS; k++) {
      let sum: number = 0;
      for (let i = 0, j = k * y.length; i < y.length; i++, j++) sum += this.#bases[j]! * y[i]!;
      if (Math.abs(sum) > most) {
        best = k;
        most = Math.abs(sum);
      }
    }
    return best;
  }

  /** Make c₀, c₁ … for y about a trial; what follows is about them. */
  expand(k: i32, y: Float64Array): void {
    if (this.#made[k] === 0) this.#makeSeries(k);
    this.#trial = k;
    const terms = this.#terms;
    let c0: number = 0;
    let c1: number = 0;
    let c2: number = 0;
    let c3: number = 0;
    let c4: number = 0;
    let c5: number = 0;
    let c6: number = 0;
    for (let i = 0, j = k * y.length * TERMS; i < y.length; i++, j += TERMS) {
      const one = y[i]!;
      c0 += terms[j]! * one;
      c1 += terms[j + 1]! * one;
      c2 += terms[j + 2]! * one;
      c3 += terms[j + 3]! * one;
      c4 += terms[j + 4]! * one;
      c5 += terms[j + 5]! * one;
      c6 += terms[j + 6]! * one;
    }
    const series = this.#series;
    series[0] = c0;
    series[1] = c1;
    series[2] = c2;
    series[3] = c3;
    series[4] = c4;
    series[5] = c5;
    series[6] = c6;
  }

  /** C at the trial itself. */
  get explained(): number {
    return this.#series[0]!;
  }

  /** Growth times dC/dg at the trial itself. */
  get tilt(): number {
    return this.#series[1]!;
  }

  /**
   * How many trials further C² is greatest, or the last trial that way; NaN where C² does not bend downward. A guess:
   * `isBest` tells of the trial there whether it was right.
   */
  wayToBest(): number {
    const up: number = this.explained < 0 ? -1 : 1;
    const rise = up * this.#series[1]!;
    const beside = BESIDE / this.growths[this.#trial]!;
    const bend = (1 + beside) * up * this.#series[2]! + rise;
    if (!(bend < 0)) return NaN;
    // A Newton step in ln(g + BESIDE) is −rise/bend; what that is in ln g follows from e^s being nearly (2 + s)/(2 − s).
    const slack = Math.min(0.1 * bend, bend - 0.5 * beside * rise);
    const way = Math.round(((1 + beside) * -rise) / (slack * LOG_STEP));
    const first: number = -this.#trial;
    const last: number = TRIALS - 1 - this.#trial;
    return Math.max(first, Math.min(last, way));
  }

  /**
   * Whether it is certain that no trial explains more of y, whose square is given, but for those next to this one. At
   * an end of the trials, and of an end next to this one, those are counted too.
   *
   * Let y = c·b + τ·t + r, t being the direction in which b moves with g and r at right angles to both, and let the b
   * of another trial be (1 − s)·b + p·t + q, q at right angles to both. That trial explains at most
   * (1 − s)·|c| + p·τ + |q|·|r|, τ counting as negative where C² falls with g. This is less than |c| if
   * τ·p/s + |r|·|q|/s is, and the greatest p/s, −p/s and |q|/s of those trials are known: one comparison stands for
   * all. (1 − s, the product of two b, is positive: φ rises with z at every growth.)
   */
  isBest(square: number): boolean {
    const k = this.#trial;
    if (this.#bounded[k] === 0) this.#makeBounds(k);
    const c = Math.abs(this.explained);
    const rise = this.explained < 0 ? -this.tilt : this.tilt;
    const spare = c - (rise > 0 ? rise * this.#perRise[k]! : -rise * this.#perFall[k]!);
    return spare > 0 && (square - c * c) * this.#perRest[k]! ** 2 < spare ** 2;
  }

  /** The growth near the trial at which the series is greatest, or least where it is negative. */
  summit(): number {
    let share = -this.#series[1]! / this.#series[2]!;
    for (let steps = 0; steps < 2; steps++) {
      this.#derive(share);
      share -= this.#climb / this.#bend;
    }
    return this.growths[this.#trial]! * (1 + share);
  }

  /** The second derivative of C by g near the trial, from the series. */
  bend(growth: number): number {
    const trial = this.growths[this.#trial]!;
    this.#derive(growth / trial - 1);
    return this.#bend / (trial * trial);
  }

  #derive(share: number): void {
    let climb: number = 0;
    let bend: number = 0;
    for (let m = TERMS - 1; m > 0; m--) {
      bend = bend * share + climb;
      climb = climb * share + this.#series[m]!;
    }
    this.#climb = climb;
    this.#bend = bend;
  }

  #makeBase(k: i32, z: Float64Array): void {
    const shares = this.#shares;
    const bases = this.#bases;
    const growth = this.growths[k]!;
    const first = k * z.length;
    let mean: number = 0;
    for (let i = 0; i < z.length; i++) {
      const phi = Math.expm1(growth * z[i]!);
      bases[first + i] = phi;
      mean += shares[i]! * phi;
    }
    let square: number = 0;
    for (let i = 0; i < z.length; i++) {
      const centred = bases[first + i]! - mean;
      bases[first + i] = centred;
      square += shares[i]! * centred * centred;
    }
    const inverse = 1 / Math.sqrt(square);
    for (let i = 0; i < z.length; i++) bases[first + i] = shares[i]! * (bases[first + i]! * inverse);
  }

  #makeSeries(k: i32): void {
    const n = this.#shares.length;
    this.#made[k] = 1;
    this.#maker.make(this.growths[k]!);
    for (let i = 0; i < n; i++) {
      for (let m = 0; m < TERMS; m++) {
        const factor: number = m === 0 ? 1 : m;
        this.#terms[(k * n + i) * TERMS + m] = factor * this.#shares[i]! * this.#maker.term(i, m);
      }
    }
  }

  /** The greatest p/s and −p/s, both over the size of b₁, and |q|/s of the other trials: see `isBest`. */
  #makeBounds(k: i32): void {
    this.#bounded[k] = 1;
    const n = this.#shares.length;
    let square: number = 0;
    for (let i = 0; i < n; i++) square += this.#terms[(k * n + i) * TERMS + 1]! ** 2 / this.#shares[i]!;
    for (let j = 0; j < TRIALS; j++) {
      const between = j > 0 && j < TRIALS - 1 && k > 0 && k < TRIALS - 1;
      const next = between && (j === k - 1 || j === k + 1);
      if (j !== k && !next) this.#widenBounds(k, j, square);
    }
  }

  #widenBounds(k: i32, other: i32, square: number): void {
    const n = this.#shares.length;
    const bases = this.#bases;
    let short: number = 0;
    let along: number = 0;
    for (let i = 0; i < n; i++) {
      const apart = bases[other * n + i]! - bases[k * n + i]!;
      short += (0.5 * apart * apart) / this.#shares[i]!;
      along += (apart * this.#terms[(k * n + i) * TERMS + 1]!) / (this.#shares[i]! * square);
    }
    let across: number = 0;
    for (let i = 0; i < n; i++) {
      const base = bases[k * n + i]!;
      const parallel = along * this.#terms[(k * n + i) * TERMS + 1]! - short * base;
      across += (bases[other * n + i]! - base - parallel) ** 2 / this.#shares[i]!;
    }
    this.#perRise[k] = Math.max(this.#perRise[k]!, along / short);
    this.#perFall[k] = Math.max(this.#perFall[k]!, -along / short);
    this.#perRest[k] = Math.max(this.#perRest[k]!, Math.sqrt(across) / short);
  }
}
