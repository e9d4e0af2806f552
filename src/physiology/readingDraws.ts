import { InputError } from '../base/inputError.ts';
import type { RandomNumbers } from '../numerics/xoshiro.ts';
import { checkedErrorModel, type ErrorModel } from './errorModel.ts';
import { type DrawnErrors, LactateDraws } from './lactateDraws.ts';
import type { Readings } from './stepTest.ts';

/** Stage length to reckon the drift of a delayed sample with when none is known, minutes (our rule). */
const USUAL_STAGE = 3;

/** The lactates of a test that are no point of its curve, as `Readings` keeps them. */
type OtherLactates = Pick<Readings, 'restLactate' | 'lactateBefore' | 'recovery'>;

/** Those that there are: at rest, before the first stage, after the end. */
const othersOf = ({ restLactate, lactateBefore, recovery }: OtherLactates): number[] => [
  ...[restLactate, lactateBefore].filter((lactate) => lactate !== null),
  ...(recovery?.lactate ?? []),
];

/** What a draw takes of a test and an error model. */
export interface DrawnTest {
  readings: Float64Array;
  /** Standard deviation of the noise of each reading, mmol/L; and of the samples that are no point of the curve. */
  noise: Float64Array;
  count: Float64Array;
  others: Float64Array;
  otherNoise: Float64Array;
  errors: DrawnErrors;
}

/**
 * Copies all through: the caller may overwrite the lactates it gave.
 *
 * Throws    InputError where there is not one lactate and one count for each intensity: draws look no lengths up
 */
export function drawnTest(readings: Readings, error: ErrorModel): DrawnTest {
  const [stages, lactates, counts] = [readings.x.length, readings.y.length, readings.count.length];
  if (lactates !== stages || counts !== stages) {
    throw new InputError(
      `readings need one lactate and one count for each intensity: there are ${stages} intensities, ${lactates} lactates and ${counts} counts`,
    );
  }
  const { gain, offset, intensityScale, rounding, contamination, contaminationSize } =
    checkedErrorModel(error);
  const others = Float64Array.from(othersOf(readings));
  return {
    readings: Float64Array.from(readings.y),
    noise: Float64Array.from(readings.y, (_, i) => noiseOf(readings, i, error)),
    count: Float64Array.from(readings.count),
    others,
    otherNoise: others.map((lactate) => repeatabilityOf(lactate, error)),
    errors: { gain, offset, intensityScale, rounding, contamination, contaminationSize },
  };
}

/** Write drawn `others` to where the methods read them; `to` has those samples that the drawn test had. */
export function writeOthers(others: Float64Array, to: OtherLactates): void {
  let next = 0;
  if (to.restLactate !== null) to.restLactate = others[next++]!;
  if (to.lactateBefore !== null) to.lactateBefore = others[next++]!;
  to.recovery?.lactate.set(others.subarray(next));
}

/**
 * Draws of what the true lactates of a test may have been, given the readings and the errors they carry.
 *
 * Model     see lactateDraws.ts. The noise of a reading joins three independent normal terms: repeatability, drift
 *           over the delay of the sample, and intensity jitter through the local slope
 * Departs   samples of one bout carry neither drift (lactate moves little within seconds there) nor jitter (a shift
 *           of the whole bout): our rule
 */
export function readingDraws(readings: Readings, error: ErrorModel, random: RandomNumbers): LactateDraws {
  const test = drawnTest(readings, error);
  return new LactateDraws(
    test.readings,
    test.noise,
    test.count,
    test.others,
    test.otherNoise,
    test.errors,
    random,
  );
}

/** Repeatability of one reading of this lactate: standard deviation, mmol/L. */
export const repeatabilityOf = (lactate: number, error: ErrorModel): number =>
  Math.hypot(error.repeatability, error.repeatabilityShare * lactate);

/** The same with the rectangular error of the display. */
export const displayedSd = (lactate: number, error: ErrorModel): number =>
  Math.hypot(repeatabilityOf(lactate, error), error.rounding / Math.sqrt(12));

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
