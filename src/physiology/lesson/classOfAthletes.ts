import { Random } from '../../numerics/random.ts';
import { RunningMoments } from '../../numerics/runningMoments.ts';
import type { ErrorModel } from '../errorModel.ts';
import type { Method } from '../methods/method.ts';
import { usableReadings } from '../readings.ts';
import type { AthleteType } from '../training/simulatedAthlete.ts';
import { type RandomAthlete, randomAthlete } from '../training/simulatedAthleteKinds.ts';
import { type StepProtocol, simulatedStepTest } from '../training/simulatedAthleteTests.ts';
import { LESSON_METHODS, type MethodOnTruth, onKnownReadings } from './againstTruth.ts';
import { firstThresholdOf } from './firstThreshold.ts';
import { truthFor } from './lessonAthletes.ts';

interface ClassTest {
  /** The test that an athlete does. */
  protocolOf(type: AthleteType): StepProtocol;
  error: ErrorModel;
  /** Of the errors of the meter. */
  seed: number;
  methods?: readonly Method[];
}

/**
 * How far one method is off over a class, as shares of each athlete's own truth: the first threshold or the maximal
 * lactate steady state, by what the method claims.
 */
export interface ClassError {
  method: Method;
  /** Athletes for whom it answers on readings without error. */
  answered: number;
  /** Mean and standard deviation over athletes: what the method itself misses. */
  bias: number;
  spread: number;
  /** The same with one test of each athlete by a meter with errors: what a laboratory would see. */
  answeredWithMeter: number;
  biasWithMeter: number;
  spreadWithMeter: number;
}

/** A class of which `done` athletes are tested. */
export interface ClassStep {
  done: number;
  /** Costs little: ask when it is to be shown. */
  errors(): ClassError[];
}

/**
 * Simulated athletes of random make, as many as wanted.
 *
 * Random    as `randomAthlete`, seeded
 */
export function* drawnAthletes(
  count: number,
  seed: number,
  sport: 'cycling' | 'running',
): Generator<RandomAthlete, void> {
  const random = new Random(seed);
  for (let i = 0; i < count; i++) yield randomAthlete(random, sport);
}

/**
 * A class tested one after the other: a step of the generator is an athlete.
 *
 * Random    one test with errors each, from a stream of its own: another meter meets the same athletes
 * Cost      some 10 ms an athlete
 */
export function* testClass(athletes: Iterable<RandomAthlete>, test: ClassTest): Generator<ClassStep, void> {
  const { methods = LESSON_METHODS } = test;
  const tallies = methods.map((method) => new Tally(method));
  let done = 0;
  for (const athlete of athletes) {
    const answers = answersOf(athlete, test, new Random(test.seed, 1 + done));
    const truth = { first: firstThresholdOf(athlete.type, athlete.steady), steady: athlete.steady };
    for (const [m, tally] of tallies.entries()) tally.add(answers[m]!, truth);
    done++;
    yield { done, errors: () => tallies.map((tally) => tally.error()) };
  }
}

function answersOf({ type }: RandomAthlete, test: ClassTest, random: Random): MethodOnTruth[] {
  const { error, protocolOf, methods = LESSON_METHODS } = test;
  const readings = usableReadings(simulatedStepTest(type, protocolOf(type)), { toExhaustion: true });
  return onKnownReadings(readings, { error, repeats: 1, random, methods });
}

/** Errors of one method so far; athletes for whom it gives no answer are left out. */
class Tally {
  readonly #method: Method;
  readonly #bare = new RunningMoments();
  readonly #metered = new RunningMoments();

  constructor(method: Method) {
    this.#method = method;
  }

  add({ estimate, answers }: MethodOnTruth, truth: { first: number; steady: number }): void {
    const at = truthFor(this.#method.claim, truth);
    if (!estimate.refused) this.#bare.add([estimate.intensity / at - 1]);
    if (answers.length > 0) this.#metered.add([answers[0]! / at - 1]);
  }

  error(): ClassError {
    return {
      method: this.#method,
      answered: this.#bare.count,
      bias: this.#bare.mean,
      spread: this.#bare.sd,
      answeredWithMeter: this.#metered.count,
      biasWithMeter: this.#metered.mean,
      spreadWithMeter: this.#metered.sd,
    };
  }
}
