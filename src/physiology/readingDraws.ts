import type { RandomNumbers } from '../numerics/random.ts';
import { checkedErrorModel, type ErrorModel } from './errorModel.ts';
import type { Readings } from './stepTest.ts';

/** Blood is never free of lactate; a draw below this counts as this, mmol/L (our rule). */
export const LEAST_LACTATE = 0.05;
/** A contamination that would leave less than this did not happen, mmol/L (our rule). */
const LEAST_CLEAN = 0.4;
/** Stage length to reckon the drift of a delayed sample with when none is known, minutes (our rule). */
const USUAL_STAGE = 3;

/** The lactates of a test that are no point of its curve, as `Readings` keeps them. */
type OtherLactates = Pick<Readings, 'restLactate' | 'lactateBefore' | 'recovery'>;

/**
 * Draws of what the true lactates may have been, given the readings and the errors they carry.
 *
 * Model     true = (reading − contamination − offset − noise + rounding) / (1 + gain); gain, offset and the scale of
 *           the intensity are drawn once a test, the rest once a reading. Noise joins three independent normal
 *           terms: repeatability, drift over the delay of the sample, and intensity jitter through the local slope
 * Units     mmol/L
 * Random    3 normals a draw, then 1 normal and 2 uniforms a reading, whatever the sizes of the terms: moving one
 *           size keeps the same numbers, so that results move smoothly
 * Departs   samples of one bout carry neither drift (lactate moves little within seconds there) nor jitter (a shift
 *           of the whole bout): our rule
 * Source    JCGM 101:2008 (Monte Carlo around the readings; clauses from memory)
 */
export class ReadingDraws {
  /** True lactates of the latest draw. */
  readonly y: Float64Array;
  /** True lactate at rest, and before the first stage, of the latest draw; null without such a sample. */
  rest: number | null;
  before: number | null;
  /** True lactates after the end; empty without any. */
  readonly recovery: Float64Array;
  /** Factor from nominal to true intensity of the latest draw. */
  scale = 1;
  readonly #error: ErrorModel;
  readonly #random: RandomNumbers;
  readonly #readings: Readings;
  /** Standard deviation of the noise of each reading, mmol/L. */
  readonly #noise: Float64Array;
  /** The measured lactates at rest, before and after: the caller may overwrite those it gave. */
  readonly #others: { rest: number | null; before: number | null; recovery: Float64Array };

  constructor(readings: Readings, error: ErrorModel, random: RandomNumbers) {
    this.y = Float64Array.from(readings.y);
    this.rest = readings.restLactate;
    this.before = readings.lactateBefore;
    this.recovery = readings.recovery?.lactate.slice() ?? new Float64Array(0);
    this.#others = { rest: this.rest, before: this.before, recovery: this.recovery.slice() };
    this.#error = checkedErrorModel(error);
    this.#random = random;
    this.#readings = readings;
    this.#noise = Float64Array.from(readings.y, (_, i) => noiseOf(readings, i, error));
  }

  next(): void {
    const { y, count } = this.#readings;
    const gain = 1 + this.#error.gain * this.#random.normal();
    const offset = this.#error.offset * this.#random.normal();
    this.scale = 1 + this.#error.intensityScale * this.#random.normal();
    for (let i = 0; i < y.length; i++) {
      this.y[i] = this.#trueLactate(y[i]!, this.#noise[i]!, count[i]!, gain, offset);
    }
    const { rest, before, recovery } = this.#others;
    this.rest = this.#other(rest, gain, offset);
    this.before = this.#other(before, gain, offset);
    for (let i = 0; i < recovery.length; i++) this.recovery[i] = this.#other(recovery[i]!, gain, offset)!;
  }

  /** Write the lactates that are no point of the curve to where the methods read them. */
  writeOthers(to: OtherLactates): void {
    to.restLactate = this.rest;
    to.lactateBefore = this.before;
    to.recovery?.lactate.set(this.recovery);
  }

  /** A single sample taken at leisure. */
  #other(lactate: number | null, gain: number, offset: number): number | null {
    if (lactate === null) return null;
    return this.#trueLactate(lactate, repeatabilityOf(lactate, this.#error), 1, gain, offset);
  }

  #trueLactate(reading: number, noise: number, samples: number, gain: number, offset: number): number {
    const { rounding, contamination, contaminationSize } = this.#error;
    let value = reading - noise * this.#random.normal();
    value += (rounding / Math.sqrt(samples)) * (this.#random.uniform() - 0.5);
    const chance = this.#random.uniform();
    const likely = contamination * samples;
    if (chance < likely) {
      // Given that it is below `likely`, chance / likely is uniform again: minus its logarithm is exponential.
      const gained = (-contaminationSize * Math.log(chance / likely)) / samples;
      if (value - gained > LEAST_CLEAN) value -= gained;
    }
    return Math.max(LEAST_LACTATE, (value - offset) / gain);
  }
}

/** Repeatability of one reading of this lactate: standard deviation, mmol/L. */
export const repeatabilityOf = (lactate: number, error: ErrorModel): number =>
  Math.hypot(error.repeatability, error.repeatabilityShare * lactate);

/** Standard deviation of the normal errors of one reading, mmol/L; the mean of several samples has less. */
export function noiseOf(readings: Readings, i: number, error: ErrorModel): number {
  const { repeatability, delay, intensityJitter } = noiseTerms(readings, i, error);
  return Math.hypot(repeatability, delay, intensityJitter) / Math.sqrt(readings.count[i]!);
}

/** What each normal term gives one sample at a point: standard deviations, mmol/L. */
export function noiseTerms(readings: Readings, i: number, error: ErrorModel) {
  const { x, y, stageMinutes, bouts } = readings;
  const repeatability = repeatabilityOf(y[i]!, error);
  if (bouts) return { repeatability, delay: 0, intensityJitter: 0 };
  const secondsOfStage = 60 * (stageMinutes ?? USUAL_STAGE);
  const before = readings.falling ? i + 1 : i - 1;
  const drift = before >= 0 && before < y.length ? (y[i]! - y[before]!) / secondsOfStage : 0;
  const [left, right] = [Math.max(0, i - 1), Math.min(y.length - 1, i + 1)];
  const slope = right > left ? (y[right]! - y[left]!) / (x[right]! - x[left]!) : 0;
  return {
    repeatability,
    delay: drift * error.delay,
    intensityJitter: slope * x[i]! * error.intensityJitter,
  };
}
