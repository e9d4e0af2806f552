import type { RandomNumbers } from '../numerics/xoshiro.ts';

/** Blood is never free of lactate; a draw below this counts as this, mmol/L (our rule). */
export const LEAST_LACTATE: number = 0.05;
/** A contamination that would leave less than this did not happen, mmol/L (our rule). */
const LEAST_CLEAN: number = 0.4;

/** The terms of an error model that are drawn as they stand; the rest make up the noise of each reading. */
export class DrawnErrors {
  gain: number = 0;
  offset: number = 0;
  intensityScale: number = 0;
  rounding: number = 0;
  contamination: number = 0;
  contaminationSize: number = 0;
}

/**
 * Draws of what the true lactates may have been, given readings and the errors they carry; `readingDraws` makes them for
 * a test.
 *
 * Model     true = (reading − contamination − offset − noise + rounding) / (1 + gain); gain, offset and the scale of
 *           the intensity are drawn once a test, the rest once a reading
 * Units     mmol/L
 * Random    3 normals a draw, then 1 normal and 2 uniforms a reading, whatever the sizes of the terms: moving one
 *           size keeps the same numbers, so that results move smoothly
 * Source    JCGM 101:2008 (Monte Carlo around the readings; clauses from memory)
 */
export class LactateDraws {
  /** True lactates of the latest draw. */
  readonly y: Float64Array;
  /** The same of samples that are no point of the curve. */
  readonly others: Float64Array;
  /** Factor from nominal to true intensity of the latest draw. */
  scale: number = 1;
  readonly #errors: DrawnErrors;
  readonly #random: RandomNumbers;
  readonly #readings: Float64Array;
  readonly #noise: Float64Array;
  readonly #count: Float64Array;
  readonly #otherReadings: Float64Array;
  readonly #otherNoise: Float64Array;

  /**
   * @param readings as measured, mmol/L
   * @param noise standard deviation of the noise of each, mmol/L
   * @param count samples averaged into each
   * @param others samples that are no point of the curve, each single
   * @param otherNoise standard deviation of their noise
   */
  constructor(
    readings: Float64Array,
    noise: Float64Array,
    count: Float64Array,
    others: Float64Array,
    otherNoise: Float64Array,
    errors: DrawnErrors,
    random: RandomNumbers,
  ) {
    this.y = new Float64Array(readings.length);
    this.others = new Float64Array(others.length);
    this.#errors = errors;
    this.#random = random;
    this.#readings = readings;
    this.#noise = noise;
    this.#count = count;
    this.#otherReadings = others;
    this.#otherNoise = otherNoise;
  }

  next(): void {
    const readings = this.#readings;
    const others = this.#otherReadings;
    const gain = 1 + this.#errors.gain * this.#random.normal();
    const offset = this.#errors.offset * this.#random.normal();
    this.scale = 1 + this.#errors.intensityScale * this.#random.normal();
    for (let i = 0; i < readings.length; i++) {
      this.y[i] = this.#trueLactate(readings[i]!, this.#noise[i]!, this.#count[i]!, gain, offset);
    }
    for (let i = 0; i < others.length; i++) {
      this.others[i] = this.#trueLactate(others[i]!, this.#otherNoise[i]!, 1, gain, offset);
    }
  }

  #trueLactate(reading: number, noise: number, samples: number, gain: number, offset: number): number {
    const errors = this.#errors;
    let value = reading - noise * this.#random.normal();
    value += (errors.rounding / Math.sqrt(samples)) * (this.#random.uniform() - 0.5);
    const chance = this.#random.uniform();
    const likely = errors.contamination * samples;
    if (chance < likely) {
      // Given that it is below `likely`, chance / likely is uniform again: minus its logarithm is exponential.
      const gained = (-errors.contaminationSize * Math.log(chance / likely)) / samples;
      if (value - gained > LEAST_CLEAN) value -= gained;
    }
    return Math.max(LEAST_LACTATE, (value - offset) / gain);
  }
}
