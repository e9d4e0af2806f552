import type { Random } from '../numerics/random.ts';
import { checkedErrorModel, type ErrorModel } from './errorModel.ts';
import { noiseOf, repeatabilityOf } from './readingDraws.ts';
import type { Readings } from './stepTest.ts';

/**
 * Readings as a meter would give them of known true lactates: the errors of a test in the direction in which they
 * arise, where `LactateDraws` goes back from readings to what may have been true.
 *
 * Model     reading = mean over its samples of round((1 + gain)·true + offset + noise + contamination); gain and offset
 *           once a test. Intensities stay nominal: the scale of the device plays no part
 * Units     mmol/L; a reading is at least one step of the display, and never below 0
 * Random    2 normals a test, then 1 normal and 2 uniforms a sample, whatever the sizes of the terms
 */
export class SimulatedReadings {
  /** The readings of the latest test, with the samples at rest, before and after. */
  readonly readings: Readings;
  readonly #truth: Readings;
  readonly #error: ErrorModel;
  readonly #random: Random;
  /** Standard deviation of the noise of one sample at each point. */
  readonly #noise: Float64Array;
  #gain = 0;
  #offset = 0;

  constructor(truth: Readings, error: ErrorModel, random: Random) {
    this.#truth = truth;
    this.#error = checkedErrorModel(error);
    this.#random = random;
    this.#noise = truth.y.map((_, i) => noiseOf(truth, i, error) * Math.sqrt(truth.count[i]!));
    const { recovery } = truth;
    this.readings = {
      ...truth,
      y: truth.y.slice(),
      recovery: recovery && { ...recovery, lactate: recovery.lactate.slice() },
    };
  }

  next(): void {
    const { y, count, restLactate, lactateBefore, recovery } = this.#truth;
    this.#gain = this.#error.gain * this.#random.normal();
    this.#offset = this.#error.offset * this.#random.normal();
    for (let i = 0; i < y.length; i++) {
      let sum = 0;
      for (let k = 0; k < count[i]!; k++) sum += this.#sample(y[i]!, this.#noise[i]!);
      this.readings.y[i] = sum / count[i]!;
    }
    this.readings.restLactate = this.#other(restLactate);
    this.readings.lactateBefore = this.#other(lactateBefore);
    for (let i = 0; recovery && i < recovery.lactate.length; i++) {
      this.readings.recovery!.lactate[i] = this.#other(recovery.lactate[i]!)!;
    }
  }

  /** A sample taken at leisure. */
  #other(lactate: number | null): number | null {
    return lactate === null ? null : this.#sample(lactate, repeatabilityOf(lactate, this.#error));
  }

  #sample(truth: number, noise: number): number {
    const { rounding, contamination, contaminationSize } = this.#error;
    let value = (1 + this.#gain) * truth + this.#offset + noise * this.#random.normal();
    const chance = this.#random.uniform();
    const gained = contaminationSize * this.#random.exponential();
    if (chance < contamination) value += gained;
    if (rounding === 0) return Math.max(0, value);
    return Math.max(rounding, rounding * Math.round(value / rounding));
  }
}
