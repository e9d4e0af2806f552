import { Random } from '../../src/numerics/random.ts';
import { type ErrorModel, HANDHELD } from '../../src/physiology/errorModel.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { sampleThresholds } from '../../src/physiology/samplingError.ts';
import { SimulatedReadings } from '../../src/physiology/simulatedReadings.ts';
import type { Session, SessionContext } from '../../src/physiology/training/session.ts';
import { asReadings, samplesOf } from '../../src/physiology/training/sessionDraws.ts';
import { secondThresholdOf } from '../../src/physiology/training/sessionLevel.ts';
import { reviewSession, type SessionReview } from '../../src/physiology/training/sessionReview.ts';
import {
  type AthleteType,
  RECREATIONAL_RUNNER,
  steadyStateOf,
  TRAINED_CYCLIST,
} from '../../src/physiology/training/simulatedAthlete.ts';
import { randomAthlete } from '../../src/physiology/training/simulatedAthleteKinds.ts';
import { simulatedStepTest } from '../../src/physiology/training/simulatedAthleteTests.ts';
import { simulatedSession } from '../physiology/training/simulatedSession.ts';

/** A simulated athlete with a known maximal lactate steady state, and the step test that suits. */
export interface Subject {
  type: AthleteType;
  /** W or km/h. */
  steady: number;
  start: number;
  increment: number;
}

/** Sessions of a simulated athlete at a known share of the maximal lactate steady state, as a meter would see them. */
export interface Trial {
  subject: Subject;
  /** Share of the maximal lactate steady state that the reps are done at. */
  share: number;
  /** Method that finds the second threshold in the step test. */
  method: string;
  sessions: number;
  /** Reps that are sampled, counted from 1; all when left out. */
  sampled?: readonly number[];
  error?: ErrorModel;
  /** Draws of the step test and of each review. */
  draws?: number;
  seed?: number;
}

export const SUBJECTS: Record<'cyclist' | 'runner', Subject> = {
  cyclist: subject(TRAINED_CYCLIST, 120, 30),
  runner: subject(RECREATIONAL_RUNNER, 6, 1),
};

function subject(type: AthleteType, start: number, increment: number): Subject {
  return { type, steady: steadyStateOf(type).intensity, start, increment };
}

/** Athletes of many kinds; stages of a tenth of the steady state from 40 % of it. */
export function manySubjects(count: number, sport: 'cycling' | 'running'): Subject[] {
  const random = new Random(1, sport === 'cycling' ? 1 : 2);
  return Array.from({ length: count }, () => {
    const { type, steady } = randomAthlete(random, sport);
    return { type, steady, start: 0.4 * steady, increment: 0.1 * steady };
  });
}

const STAGE_MINUTES = 4;
/** Four reps of eight minutes with two minutes at half the steady state between them. */
const PLAN = { reps: 4, repMinutes: 8, restMinutes: 2 };
const CONTEXT: SessionContext = { restMinutes: PLAN.restMinutes, rest: 'active', reserve: null };

/** Reviews of so many sessions, each after a step test of its own; both with the errors of the meter. */
export function* trialReviews(trial: Trial): Generator<SessionReview> {
  const { subject, share, method, sessions, sampled, error = HANDHELD, draws = 500, seed = 1 } = trial;
  const { type, steady, start, increment } = subject;
  const stages = usableReadings(simulatedStepTest(type, { start, increment, stageMinutes: STAGE_MINUTES }), {
    toExhaustion: true,
  });
  const truth = sessionAt(type, share * steady, 0.5 * steady, sampled);
  const random = new Random(seed, Math.round(100 * share));
  const test = new SimulatedReadings(stages, error, random);
  const samples = new SimulatedReadings(asReadings(truth, samplesOf(truth)), error, random);
  for (let i = 0; i < sessions; i++) {
    test.next();
    samples.next();
    const sampling = sampleThresholds(
      { ...test.readings, y: test.readings.y.slice() },
      { methods: [method], error, draws, seed: i, intensityScale: 'device' },
    );
    const threshold = secondThresholdOf(sampling, method, { stageMinutes: STAGE_MINUTES });
    yield reviewSession(withLactates(truth, samples.readings.y), CONTEXT, threshold, {
      error,
      draws,
      seed: i,
    });
  }
}

function sessionAt(type: AthleteType, intensity: number, easy: number, sampled?: readonly number[]): Session {
  const ends = simulatedSession(type, { ...PLAN, intensity, easy });
  return {
    sport: type.sport,
    axis: type.axis,
    exertionScale: null,
    notes: [],
    reps: ends.map(({ minutes, lactate }, i) => ({
      number: i + 1,
      intensity,
      minutes,
      signs: [],
      readings:
        sampled && !sampled.includes(i + 1)
          ? []
          : [{ row: i, minute: minutes, lactate, heartRate: null, rpe: null }],
    })),
  };
}

/** The session with other lactates in the place of its own, in the order of time. */
function withLactates(session: Session, lactates: Float64Array): Session {
  let next = 0;
  return {
    ...session,
    reps: session.reps.map((rep) => ({
      ...rep,
      readings: rep.readings.map((reading) => ({ ...reading, lactate: lactates[next++]! })),
    })),
  };
}

/** Shares of the four calls among reviews, and of those that were not assessable. */
export interface Calls {
  below: number;
  at: number;
  probably: number;
  above: number;
  notAssessable: number;
}

export function callsOf(reviews: Iterable<SessionReview>): Calls {
  const calls = { below: 0, at: 0, probably: 0, above: 0, notAssessable: 0 };
  let count = 0;
  for (const { chance, verdict } of reviews) {
    count++;
    if (verdict === 'not-assessable' || chance === null) calls.notAssessable++;
    else if (verdict === 'above') calls.above++;
    else if (verdict === 'probably-above') calls.probably++;
    else if (chance < 0.2) calls.below++;
    else calls.at++;
  }
  for (const key of Object.keys(calls) as (keyof Calls)[]) calls[key] /= count;
  return calls;
}
