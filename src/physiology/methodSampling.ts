import { sharesByCode, stageShares, statusOf } from './drawShares.ts';
import type { Estimate } from './estimate.ts';
import { type HeartRates, heartRateAt } from './heartRate.ts';
import { type DrawFigures, densityOf } from './kernel/compiledSummary.ts';
import type { Method, MethodOptions } from './methods/method.ts';
import {
  type CensoredDraws,
  censoredDraws,
  censoredInterval,
  censoredQuantiles,
  quantileError,
  rankedQuantiles,
} from './sampleSummary.ts';
import type { MethodDraws, MethodSampling, Shifts } from './samplingTypes.ts';

/** The draws of one method, with what their summary needs of the test. */
export interface DrawnMethod {
  method: Method;
  options: MethodOptions;
  estimate: Estimate;
  column: MethodDraws;
  /** What its draws say at a glance, as true or as nominal intensities. */
  figures: DrawFigures;
  /** Intensities of the readings. */
  x: Float64Array;
  heartRates: HeartRates | undefined;
  shifts: () => Shifts;
}

/** Ends of the 95 % interval, and of the 80 % interval around the median. */
const [OUTER_QUANTILES, INNER_QUANTILES] = [
  [0.025, 0.975],
  [0.1, 0.5, 0.9],
];

/** What the draws say of one method. What takes longest and is asked for least is worked out when it is first read. */
export function methodSampling(drawn: DrawnMethod): MethodSampling {
  const { method, options, estimate } = drawn;
  const people = estimate.refused ? undefined : method.spread?.(options);
  return people ? byPeople(drawn, people) : byDraws(drawn);
}

function byDraws({ method, estimate, column, figures, x, heartRates, shifts }: DrawnMethod): MethodSampling {
  const refusedByCode = sharesByCode(figures.counts);
  const refusedShare = Object.values(refusedByCode).reduce((a, b) => a + b, 0);
  const status = statusOf(refusedShare, estimate);
  const shown = column.x.length > 0 && (status === 'shown' || status === 'caution');
  const spread = figures.answered < 2 ? null : { mean: figures.mean, sd: figures.sd };
  const [low95, high95] = rankedQuantiles(figures, OUTER_QUANTILES);
  // Reading quantiles orders the draws, and sums differ by rounding with their order: each has draws of its own.
  const draws = (): CensoredDraws => ({ ...figures, answers: figures.answers.slice() });
  const inner = once(() => censoredQuantiles(draws(), INNER_QUANTILES));
  const stages = once(() => (method.discrete ? stageShares(column.x, x) : null));
  const heartRate95 = once(() => (shown && heartRates ? heartRatesAtEnds(column, heartRates) : null));
  const density = once(() =>
    spread === null || method.discrete ? null : densityOf(figures.answers, spread.sd, 1 - refusedShare),
  );
  const standardError = once(() => (spread === null ? null : errorsOf(draws(), spread.sd)));
  return {
    method: method.id,
    estimate,
    status,
    refusedShare,
    refusedByCode,
    mean: spread?.mean ?? null,
    sd: spread?.sd ?? null,
    interval95: shown ? { low: low95!, high: high95! } : null,
    get median() {
      return column.x.length > 0 ? inner()[1]!.value : null;
    },
    get interval80() {
      return shown ? { low: inner()[0]!, high: inner()[2]! } : null;
    },
    get stages() {
      return stages();
    },
    get heartRate95() {
      return heartRate95();
    },
    get standardError() {
      return standardError();
    },
    get density() {
      return density();
    },
    get shifts() {
      return shifts();
    },
  };
}

/** A result that is worked out when it is first asked for. */
function once<T>(work: () => T): () => T {
  let made: { result: T } | null = null;
  return () => {
    made ??= { result: work() };
    return made.result;
  };
}

/** How exact the summary is. */
const errorsOf = (draws: CensoredDraws, sd: number): MethodSampling['standardError'] => ({
  mean: sd / Math.sqrt(draws.answers.length),
  low: quantileError(draws, 0.025),
  high: quantileError(draws, 0.975),
});

/** Heart rate was measured at nominal intensities, so it is read at those. */
function heartRatesAtEnds(column: MethodDraws, heartRates: HeartRates): MethodSampling['heartRate95'] {
  const { low, high } = censoredInterval(censoredDraws(column, null), 0.95);
  const at = (value: number | null) => (value === null ? null : heartRateAt(heartRates, value));
  return { low: at(low.value), high: at(high.value) };
}

/** A summary whose spread is that of people who judged; the draws have nothing to say about it. */
function byPeople(
  { method, estimate, shifts }: DrawnMethod,
  { sd, low, high }: { sd: number; low: number; high: number },
): MethodSampling {
  const median = estimate.refused ? null : estimate.intensity;
  return {
    method: method.id,
    estimate,
    status: 'shown',
    refusedShare: 0,
    refusedByCode: {},
    mean: median,
    sd,
    median,
    interval95: { low: { value: low, beyond: null }, high: { value: high, beyond: null } },
    interval80: null,
    heartRate95: null,
    standardError: null,
    stages: null,
    density: null,
    get shifts() {
      return shifts();
    },
  };
}
