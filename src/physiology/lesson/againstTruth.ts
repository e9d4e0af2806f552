import { moments } from '../../numerics/moments.ts';
import { quantiles } from '../../numerics/quantiles.ts';
import type { Random } from '../../numerics/random.ts';
import type { ErrorModel } from '../errorModel.ts';
import { type Estimate, estimatesOf } from '../estimate.ts';
import { Answer } from '../methods/answer.ts';
import { METHODS } from '../methods/index.ts';
import type { Method } from '../methods/method.ts';
import { PreparedMethods, withDefaults } from '../preparedMethods.ts';
import { SimulatedReadings } from '../simulatedReadings.ts';
import type { Readings } from '../stepTest.ts';

/** The methods of a step test that need nothing but readings: none that is off by itself, or wants raters. */
export const LESSON_METHODS: readonly Method[] = METHODS.filter(
  (method) => method.protocol === 'step' && !method.off && !method.spread,
);

/** What one method says of a test whose truth is known. */
export interface MethodOnTruth {
  method: Method;
  /** On readings without error. */
  estimate: Estimate;
  /** Answers over repeats of the test with the errors of a meter, W or km/h; those that gave none are left out. */
  answers: Float64Array;
  repeats: number;
}

interface RepeatOptions {
  error: ErrorModel;
  repeats: number;
  random: Random;
  methods?: readonly Method[];
}

/**
 * What methods answer on readings without error, and on repeats of the same test with the errors of a meter.
 *
 * Units     W or km/h
 * Random    as `SimulatedReadings`, one test a repeat, the same for all methods
 */
export function onKnownReadings(truth: Readings, options: RepeatOptions): MethodOnTruth[] {
  const [all] = repeatsInSteps(truth, { ...options, step: options.repeats });
  return all!;
}

/** The same in steps of so many repeats, each with all the repeats up to it. */
export function* repeatsInSteps(
  truth: Readings,
  { error, repeats, random, methods = LESSON_METHODS, step }: RepeatOptions & { step: number },
): Generator<MethodOnTruth[], void> {
  const options = withDefaults();
  const estimates = estimatesOf(new PreparedMethods(truth, methods, options));
  const simulated = new SimulatedReadings(truth, error, random);
  const prepared = new PreparedMethods(simulated.readings, methods, options);
  const answers = methods.map(() => new Answers(repeats));
  const slot = new Answer();
  for (let done = 1; done <= repeats; done++) {
    simulated.next();
    prepared.fit(simulated.readings.y);
    for (let m = 0; m < methods.length; m++) {
      prepared.answer(m, simulated.readings.y, slot);
      if (slot.code === null) answers[m]!.add(slot.x);
    }
    if (done % step > 0 && done < repeats) continue;
    yield methods.map((method, m) => ({
      method,
      estimate: estimates[m]!,
      answers: answers[m]!.soFar(),
      repeats: done,
    }));
  }
}

/** Answers as they come, with room for all there can be. */
class Answers {
  readonly #values: Float64Array;
  #count = 0;

  constructor(most: number) {
    this.#values = new Float64Array(most);
  }

  add(value: number): void {
    this.#values[this.#count++] = value;
  }

  soFar(): Float64Array {
    return this.#values.subarray(0, this.#count);
  }
}

/** How far a method is off, as shares of the truth: bias without errors of the meter, and what these add. */
export interface ErrorOfMethod {
  /** Of the answer on readings without error; null when it gives none. */
  bias: number | null;
  /** Standard deviation over repeats; null when most repeats give no answer. */
  scatter: number | null;
  /** Central 95 % of the repeats. */
  range: readonly [number, number] | null;
  /** Share of the repeats without an answer. */
  without: number;
}

/** Share of the repeats that must give an answer for their scatter to be told (our rule). */
const LEAST_ANSWERED = 0.5;

/**
 * Bias and scatter of a method against the truth that its claim names.
 *
 * Units     shares of the truth: 0.02 is 2 % too high
 */
export function errorAgainst(truth: number, { estimate, answers, repeats }: MethodOnTruth): ErrorOfMethod {
  const isTold = answers.length > 1 && answers.length >= LEAST_ANSWERED * repeats;
  const { values } = isTold ? quantiles(answers, [0.025, 0.975]) : { values: null };
  return {
    bias: estimate.refused ? null : estimate.intensity / truth - 1,
    scatter: isTold ? moments(answers).sd / truth : null,
    range: values && [values[0]! / truth - 1, values[1]! / truth - 1],
    without: repeats === 0 ? 0 : 1 - answers.length / repeats,
  };
}
