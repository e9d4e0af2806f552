import type { Random } from '../numerics/random.ts';
import { checkedErrorModel, type ErrorModel } from './errorModel.ts';
import type { Readings } from './stepTest.ts';

/** Blood is never free of lactate; a draw below this counts as this, mmol/L (our rule). */
const LEAST_LACTATE = 0.05;
/** A contamination that would leave less than this did not happen, mmol/L (our rule). */
const LEAST_CLEAN = 0.4;
/** Stage length to reckon the drift of a delayed sample with when none is known, minutes (our rule). */
const USUAL_STAGE = 3;

/**
 * Draws of what the true lactates may have been, given the readings and the errors they carry.
 *
 * Model     true = (reading − contamination − offset − noise + rounding) / (1 + gain); gain, offset and the scale of
 *           the intensity are drawn once a test, the rest once a reading. Noise joins three independent normal
 *           terms: repeatability, drift over the delay of the sample, and intensity jitter through the local slope
 * Units     mmol/L
 * Random    3 normals a draw, then 1 normal and 2 uniforms a reading, whatever the sizes of the terms: moving one
 *           size keeps the same numbers, so that results move smoothly
 * Source    JCGM 101:2008 (Monte Carlo around the readings; clauses from memory)
 */
export class ReadingDraws {
  /** True lactates of the latest draw. */
  readonly y: Float64Array;
  /** True lactate at rest of the latest draw; null without a rest sample. */
  rest: number | null;
  /** Factor from nominal to true intensity of the latest draw. */
  scale = 1;
  readonly #error: ErrorModel;
  readonly #random: Random;
  readonly #readings: Readings;
  /** Standard deviation of the noise of each reading, mmol/L. */
  readonly #noise: Float64Array;

  constructor(readings: Readings, error: ErrorModel, random: Random) {
    this.y = Float64Array.from(readings.y);
    this.rest = readings.restLactate;
    this.#error = checkedErrorModel(error);
    this.#random = random;
    this.#readings = readings;
    this.#noise = Float64Array.from(readings.y, (_, i) => noiseOf(readings, i, error));
  }

  next(): void {
    const { y, count, restLactate } = this.#readings;
    const gain = 1 + this.#error.gain * this.#random.normal();
    const offset = this.#error.offset * this.#random.normal();
    this.scale = 1 + this.#error.intensityScale * this.#random.normal();
    for (let i = 0; i < y.length; i++) {
      this.y[i] = this.#trueLactate(y[i]!, this.#noise[i]!, count[i]!, gain, offset);
    }
    if (restLactate === null) return;
    this.rest = this.#trueLactate(restLactate, repeatabilityOf(restLactate, this.#error), 1, gain, offset);
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

const repeatabilityOf = (lactate: number, error: ErrorModel): number =>
  Math.hypot(error.repeatability, error.repeatabilityShare * lactate);

/** Standard deviation of the normal errors of one reading, mmol/L; the mean of several samples has less. */
function noiseOf(readings: Readings, i: number, error: ErrorModel): number {
  const { x, y, count, stageMinutes } = readings;
  const secondsOfStage = 60 * (stageMinutes ?? USUAL_STAGE);
  const drift = i > 0 ? (y[i]! - y[i - 1]!) / secondsOfStage : 0;
  const [left, right] = [Math.max(0, i - 1), Math.min(y.length - 1, i + 1)];
  const slope = right > left ? (y[right]! - y[left]!) / (x[right]! - x[left]!) : 0;
  const one = Math.hypot(
    repeatabilityOf(y[i]!, error),
    drift * error.delay,
    slope * x[i]! * error.intensityJitter,
  );
  return one / Math.sqrt(count[i]!);
}
