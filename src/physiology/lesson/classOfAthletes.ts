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

export interface ClassOptions {
  sport: 'cycling' | 'running';
  athletes: number;
  seed: number;
  error: ErrorModel;
  /** The test that an athlete does. */
  protocolOf(type: AthleteType): StepProtocol;
  methods?: readonly Method[];
}

/** How far one method is off over a class, as shares of each athlete's own truth: the first threshold or the maximal
 * lactate steady state, by what the method claims. */
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

export interface ClassStep {
  done: number;
  athletes: number;
  /** Costs little: ask when it is to be shown. */
  errors(): ClassError[];
}

/** How far each method was off with one athlete, without and with the errors of a meter; NaN for no answer. */
export interface Pupil {
  first: number;
  steady: number;
  bias: Float64Array;
  biasWithMeter: Float64Array;
}

/**
 * A class of simulated athletes of random make, tested one after the other: a step of the generator is an athlete.
 *
 * Model     makes as in `randomAthlete`; one test with errors each, from a stream of its own, so that another meter
 *           meets the same athletes
 * Cost      some 10 ms an athlete
 */
export function* classOfAthletes(options: ClassOptions): Generator<ClassStep, void> {
  const { athletes, sport, seed, methods = LESSON_METHODS } = options;
  const random = new Random(seed);
  const tallies = methods.map((method) => new Tally(method));
  for (let i = 0; i < athletes; i++) {
    const { bias, biasWithMeter } = testedPupil(randomAthlete(random, sport), i, options);
    for (const [m, tally] of tallies.entries()) tally.add(bias[m]!, biasWithMeter[m]!);
    yield { done: i + 1, athletes, errors: () => tallies.map((tally) => tally.error()) };
  }
}

/** Tests one athlete of a class; `place` in the class decides the errors of the meter. */
export function testedPupil(
  athlete: RandomAthlete,
  place: number,
  options: Omit<ClassOptions, 'sport'>,
): Pupil {
  const { error, seed, protocolOf, methods = LESSON_METHODS } = options;
  const test = simulatedStepTest(athlete.type, protocolOf(athlete.type));
  const readings = usableReadings(test, { toExhaustion: true });
  // A stream for each athlete: how many numbers one takes does not move the next.
  const random = new Random(seed, 1 + place);
  const repeats = onKnownReadings(readings, { error, repeats: 1, random, methods });
  const truth = { first: firstThresholdOf(athlete.type, athlete.steady), steady: athlete.steady };
  const off = (intensity: number, { method }: MethodOnTruth) => intensity / truthFor(method.claim, truth) - 1;
  return {
    ...truth,
    bias: Float64Array.from(repeats, (one) =>
      off(one.estimate.refused ? Number.NaN : one.estimate.intensity, one),
    ),
    biasWithMeter: Float64Array.from(repeats, (one) => off(one.answers[0] ?? Number.NaN, one)),
  };
}

class Tally {
  readonly #method: Method;
  readonly #without = new RunningMoments();
  readonly #with = new RunningMoments();

  constructor(method: Method) {
    this.#method = method;
  }

  add(bias: number, biasWithMeter: number): void {
    this.#without.add([bias]);
    this.#with.add([biasWithMeter]);
  }

  error(): ClassError {
    return {
      method: this.#method,
      answered: this.#without.count,
      bias: this.#without.mean,
      spread: this.#without.sd,
      answeredWithMeter: this.#with.count,
      biasWithMeter: this.#with.mean,
      spreadWithMeter: this.#with.sd,
    };
  }
}
