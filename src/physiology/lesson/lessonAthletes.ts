import type { Claim } from '../methods/method.ts';
import {
  type AthleteType,
  intensityAtMaximalUptake,
  oxygenDemand,
  RECREATIONAL_RUNNER,
  steadyStateOf,
  TRAINED_CYCLIST,
} from '../training/simulatedAthlete.ts';
import type { StepProtocol } from '../training/simulatedAthleteTests.ts';
import { firstThresholdOf } from './firstThreshold.ts';

/** The athletes that a lesson can be given on; `knownAthlete` makes them. */
export type LessonAthleteId = 'cyclist' | 'enduring' | 'sprinter' | 'runner';

/** Simulated athletes to learn on: two of one aerobic make differ in their glycolytic rate alone (our rule). */
const TYPES: Record<LessonAthleteId, AthleteType> = {
  cyclist: TRAINED_CYCLIST,
  enduring: { ...TRAINED_CYCLIST, name: 'enduring cyclist', glycolyticRate: 0.25 },
  sprinter: { ...TRAINED_CYCLIST, name: 'sprinting cyclist', glycolyticRate: 0.75 },
  runner: RECREATIONAL_RUNNER,
};

/** A simulated athlete and what is known of it, since it is made up. */
export interface KnownAthlete {
  id: LessonAthleteId;
  type: AthleteType;
  /** Intensity of the maximal lactate steady state, W or km/h. */
  steady: number;
  /** The first threshold, W or km/h. */
  first: number;
  /** Share of the steady state in maximal oxygen uptake. */
  share: number;
  /** Blood lactate there after 10 and 30 min, mmol/L. */
  lactate10: number;
  lactate30: number;
}

/** One of the athletes of the lesson, with the truth about it. */
export function knownAthlete(id: LessonAthleteId): KnownAthlete {
  const type = TYPES[id];
  const { intensity, lactate10, lactate30 } = steadyStateOf(type);
  return {
    id,
    type,
    steady: intensity,
    first: firstThresholdOf(type, intensity),
    share: oxygenDemand(type, intensity) / type.maximalUptake,
    lactate10,
    lactate30,
  };
}

/** What a method with this claim is held against: the first threshold, or the maximal lactate steady state. */
export const truthFor = (claim: Claim, { first, steady }: Pick<KnownAthlete, 'first' | 'steady'>): number =>
  claim === 'LT1' ? first : steady;

/** Start and increment of a protocol, in proportion to what an athlete has at maximal oxygen uptake. */
export function scaledTo(type: AthleteType, protocol: StepProtocol, from: AthleteType): StepProtocol {
  const scale = intensityAtMaximalUptake(type) / intensityAtMaximalUptake(from);
  return { ...protocol, start: scale * protocol.start, increment: scale * protocol.increment };
}
