import { formatNumber, withUnit } from '../../base/format.ts';
import { unitOf } from '../../base/units.ts';
import { quantiles, spreadOf } from '../../numerics/quantiles.ts';
import { intensityText } from '../refusal.ts';
import type { SamplingResult } from '../samplingTypes.ts';
import type { Readings } from '../stepTest.ts';
import { thresholdDraws } from '../thresholdDraws.ts';
import { type Repeatability, repeatabilityOf, smallestDetectableChange } from './repeatability.ts';

/** Whether something was the same in both tests; null when nobody knows. */
export type Same = boolean | null;

/** One test among several of an athlete. */
export interface TestOfAthlete {
  name: string;
  readings: Readings;
  sampling: SamplingResult;
}

/** What the tables cannot tell about two tests. */
export interface SameConditions {
  meter: Same;
  /** Finger or ear lobe, and the same side of it. */
  site: Same;
  machine: Same;
  /** Food, rest, heat, health. */
  state: Same;
}

type RetestVerdict = 'changed' | 'not-shown' | 'not-comparable';

/** What two tests say of one method's threshold. */
export interface MethodShift {
  method: string;
  before: number;
  after: number;
  /** After less before, with the 95 % interval of the readings' errors; an end may be infinite. W or km/h. */
  shift: number;
  low: number;
  high: number;
  /** Smallest change that is more than chance from test to test. */
  smallest: number;
  repeatability: Repeatability;
  verdict: RetestVerdict;
}

/** Two tests of one athlete compared, method by method, or why they cannot be. */
export interface Retest {
  /** Why the two cannot be compared; empty when they can. */
  reasons: string[];
  /** What is not known to have been the same. */
  unknown: string[];
  shifts: MethodShift[];
}

/** Stage lengths that differ by less count as the same, min. */
const SAME_MINUTES = 0.1;
/** Steps and starts that differ by less than this share count as the same. */
const SAME_SHARE = 0.1;

/** Why two tests cannot be compared as far as their tables tell, in sentences. */
export function protocolDifferences(before: Readings, after: Readings): string[] {
  if (before.sport !== after.sport || before.axis !== after.axis)
    return [
      `One test is ${before.sport} in ${unitOf(before.axis)}, the other ${after.sport} in ${unitOf(after.axis)}.`,
    ];
  if (before.protocol !== after.protocol) return ['The protocols are not the same.'];
  const { axis } = after;
  const [lengthBefore, lengthAfter] = [before.stageMinutes, after.stageMinutes];
  const [stepBefore, stepAfter] = stepsOf(before, after);
  return [
    ...(lengthBefore !== null && lengthAfter !== null && Math.abs(lengthBefore - lengthAfter) > SAME_MINUTES
      ? [
          `Stages of ${withUnit(minutes(lengthBefore), 'min')} then and ${withUnit(minutes(lengthAfter), 'min')} now: shorter stages put thresholds higher.`,
        ]
      : []),
    ...(Math.abs(stepBefore - stepAfter) > SAME_SHARE * stepAfter
      ? [
          `Steps of mostly ${intensityText(stepBefore, axis)} then and ${intensityText(stepAfter, axis)} now, where both tested: the same intensity came after more work in one of them.`,
        ]
      : []),
  ];
}

const minutes = (value: number) => formatNumber(value, Number.isInteger(value) ? 0 : 1);

/**
 * The step from stage to stage in each of two tests, the middle one of those where both tested: when steps grow smaller
 * towards the end, whoever gets further takes more of the small ones in the same protocol.
 */
function stepsOf({ x: before }: Readings, { x: after }: Readings): [number, number] {
  const low = Math.max(before[0]!, after[0]!);
  const high = Math.min(before.at(-1)!, after.at(-1)!);
  const shared = [before, after].map((x) => x.filter((value) => value >= low && value <= high));
  const [first, second] = shared.every((x) => x.length > 1) ? shared : [before, after];
  return [middleStep(first!), middleStep(second!)];
}

function middleStep(x: Float64Array): number {
  const steps = Array.from(x.subarray(1), (value, i) => value - x[i]!);
  return quantiles(steps, [0.5]).values[0]!;
}

const CONDITIONS = {
  meter: {
    differ: 'Another lactate meter: meters differ from each other by more than athletes change.',
    name: 'the meter',
  },
  site: {
    differ: 'Another place of sampling: fingertips read higher than ear lobes.',
    name: 'the place of sampling',
  },
  machine: { differ: 'Another machine or power meter: their scales differ.', name: 'the machine' },
  state: {
    differ: 'The athlete came in another state (food, hard days, heat, illness): lactate shifts with it.',
    name: 'the state of the athlete',
  },
} as const satisfies Record<keyof SameConditions, { differ: string; name: string }>;

/**
 * What two tests of one athlete say of a change, method by method.
 *
 * Model     the shift of each method from the draws of both tests, drawn apart; a change is shown when the shift passes the
 *           smallest detectable change of the method and its interval leaves out 0. Tests that were not done alike are
 *           not compared
 * Assumes   the draws of the two tests have different seeds: the errors of two days are independent
 * Source    smallest detectable change: Hopkins 2000, Sports Med 30:1–15 (from memory); asking for both is our rule
 */
export function retestOf(
  before: TestOfAthlete,
  after: TestOfAthlete,
  same: SameConditions,
  own: Repeatability | null = null,
): Retest {
  const keys = Object.keys(CONDITIONS) as (keyof SameConditions)[];
  const reasons = [
    ...protocolDifferences(before.readings, after.readings),
    ...keys.filter((key) => same[key] === false).map((key) => CONDITIONS[key].differ),
  ];
  return {
    reasons,
    unknown: [
      ...(before.readings.stageMinutes === null || after.readings.stageMinutes === null
        ? ['the length of the stages']
        : []),
      ...keys.filter((key) => same[key] === null).map((key) => CONDITIONS[key].name),
    ],
    shifts:
      before.readings.axis === after.readings.axis ? shiftsOf(before, after, reasons.length === 0, own) : [],
  };
}

function shiftsOf(
  before: TestOfAthlete,
  after: TestOfAthlete,
  comparable: boolean,
  own: Repeatability | null,
): MethodShift[] {
  const { sport } = after.readings;
  return after.sampling.methods.flatMap((sampling) => {
    const { method } = sampling;
    const other = before.sampling.methods.find((one) => one.method === method);
    if (!isShown(sampling) || !other || !isShown(other)) return [];
    const [x0, x1] = [other.estimate.intensity, sampling.estimate.intensity];
    const { low, high } = shiftInterval(before.sampling, after.sampling, method);
    const repeatability = own ?? repeatabilityOf(method, sport);
    const smallest = smallestDetectableChange((x0 + x1) / 2, repeatability.variation);
    const shift = x1 - x0;
    const shown = Math.abs(shift) > smallest && (low > 0 || high < 0);
    const verdict = comparable ? (shown ? 'changed' : 'not-shown') : 'not-comparable';
    return [{ method, before: x0, after: x1, shift, low, high, smallest, repeatability, verdict }];
  });
}

type Sampling = SamplingResult['methods'][number];
type Shown = Sampling & { estimate: Extract<Sampling['estimate'], { intensity: number }> };

/** With an answer that survives the errors of its test. */
const isShown = (sampling: Sampling): sampling is Shown =>
  !sampling.estimate.refused && (sampling.status === 'shown' || sampling.status === 'caution');

/** Draws of both tests as they come: their errors are independent, so any pairing will do. */
function shiftInterval(before: SamplingResult, after: SamplingResult, method: string) {
  const [first, second] = [thresholdDraws(before, method), thresholdDraws(after, method)];
  const shifts = Float64Array.from(
    { length: Math.min(first.length, second.length) },
    (_, d) => second[d]! - first[d]!,
  );
  const { low, high } = spreadOf(shifts);
  return { low, high };
}
