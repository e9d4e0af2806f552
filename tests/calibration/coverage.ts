import { Random } from '../../src/numerics/random.ts';
import type { ErrorModel } from '../../src/physiology/errorModel.ts';
import { estimateReadings } from '../../src/physiology/estimate.ts';
import { METHODS } from '../../src/physiology/methods/index.ts';
import { Sampler } from '../../src/physiology/samplingError.ts';
import type { Interval } from '../../src/physiology/samplingTypes.ts';
import { SimulatedReadings } from '../../src/physiology/simulatedReadings.ts';
import { type AthleteType, truthOf } from './athletes.ts';

export interface MethodCoverage {
  method: string;
  /** Simulated tests with an answer known without noise, and with an interval. */
  tests: number;
  /** Share of the tests with a known answer that are given an interval. */
  determined: number;
  /** Share of the intervals that hold the answer without noise. */
  held95: number;
  held80: number;
  /** Mean of estimate less answer without noise, in mean standard deviations of the draws. */
  bias: number;
  /** Standard deviation of the estimates around their mean, over the mean standard deviation of the draws. */
  spread: number;
}

export interface CoverageOptions {
  /** The errors that the tests have. */
  error: ErrorModel;
  /** The errors that the intervals reckon with; the same unless given. */
  claimed?: ErrorModel;
  tests: number;
  /** Draws for each interval. */
  draws: number;
  seed: number;
}

class Tally {
  known = 0;
  intervals = 0;
  held95 = 0;
  held80 = 0;
  readonly gaps: number[] = [];
  sds = 0;
}

/** Does the interval hold the value? An end beyond the tested range holds everything on its side. */
const holds = ({ low, high }: Interval, value: number): boolean =>
  (low.beyond === 'below' || (low.value !== null && low.value <= value)) &&
  (high.beyond === 'above' || (high.value !== null && high.value >= value));

/** Coverage of the intervals of every continuous method over simulated tests of one type of athlete. */
export function coverageOf(
  type: AthleteType,
  { error, claimed = error, tests, draws, seed }: CoverageOptions,
): MethodCoverage[] {
  const random = new Random(seed);
  const tallies = new Map<string, Tally>();
  for (let t = 0; t < tests; t++) {
    const truth = truthOf(type, random);
    const simulated = new SimulatedReadings(truth, error, random);
    simulated.next();
    const answers = new Map(
      estimateReadings(truth).flatMap((one) => (one.refused ? [] : [[one.method, one.intensity] as const])),
    );
    const sampler = new Sampler(simulated.readings, {
      error: claimed,
      seed: seed + 7919 * (t + 1),
      intensityScale: 'device',
    });
    sampler.run(draws);
    for (const { method, estimate, interval95, interval80, sd } of sampler.summary().methods) {
      const known = answers.get(method);
      if (known === undefined) continue;
      const tally = tallies.get(method) ?? new Tally();
      tallies.set(method, tally);
      tally.known++;
      if (interval95 === null || interval80 === null || estimate.refused || sd === null) continue;
      tally.intervals++;
      if (holds(interval95, known)) tally.held95++;
      if (holds(interval80, known)) tally.held80++;
      tally.gaps.push(estimate.intensity - known);
      tally.sds += sd;
    }
  }
  return METHODS.filter(({ id, discrete }) => !discrete && tallies.has(id)).map(({ id }) =>
    coverage(id, tallies.get(id)!),
  );
}

function coverage(method: string, { known, intervals, held95, held80, gaps, sds }: Tally): MethodCoverage {
  const mean = gaps.reduce((sum, gap) => sum + gap, 0) / intervals;
  const variance = gaps.reduce((sum, gap) => sum + (gap - mean) ** 2, 0) / (intervals - 1);
  const sd = sds / intervals;
  return {
    method,
    tests: intervals,
    determined: intervals / known,
    held95: held95 / intervals,
    held80: held80 / intervals,
    bias: mean / sd,
    spread: Math.sqrt(variance) / sd,
  };
}
