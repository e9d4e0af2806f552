import { GridQuantiles } from '../numerics/gridQuantiles.ts';
import { RunningMoments } from '../numerics/runningMoments.ts';
import { type AdaptiveOptions, adaptiveSampling, type SamplingProgress } from './adaptiveSampling.ts';
import { statusOf } from './drawShares.ts';
import type { Estimate } from './estimate.ts';
import { Sampler, type SamplerOptions } from './samplingError.ts';
import type { Interval, IntervalEnd, SamplingStatus } from './samplingTypes.ts';
import type { Readings } from './stepTest.ts';

/** What many draws say of one method whose answers spread over a scale. */
export interface StreamedMethod {
  method: string;
  estimate: Estimate;
  status: SamplingStatus;
  refusedShare: number;
  mean: number | null;
  sd: number | null;
  /** Null when not determined. */
  interval95: Interval | null;
  interval80: Interval | null;
  /** Whether its figures have settled. */
  settled: boolean;
}

/** How far the draws are, with the figures so far. */
export interface StreamedResult extends SamplingProgress {
  /** Costs a pass over the grids: ask when it is to be shown. */
  methods(): StreamedMethod[];
}

/** Cells of the grid that quantiles are read from: a tested range of 200 W is told to 0.03 W. */
const CELLS = 8192;
/** Answers may leave the tested range by the scale of the device: so many standard deviations are given room. */
const ROOM = 6;

/**
 * Sampling until the figures have settled, in memory that does not grow with the draws: of each block of draws only
 * counts and moments are kept. A step makes `slice` draws, so that the caller can do other things in between.
 *
 * Error     ends of intervals to a cell of the grid: an 8192th of the tested range with the room beside it
 * Source    JCGM 101:2008, 7.9.4 (from memory); quantiles from counts are our rule
 */
export function* streamedSampling(
  readings: Readings,
  options: SamplerOptions,
  adaptive: AdaptiveOptions & { slice?: number } = {},
): Generator<StreamedResult, void> {
  const sampler = new Sampler(readings, options);
  const [lo, hi] = [readings.x[0]!, readings.x.at(-1)!];
  const room = options.intensityScale === 'device' ? 0 : ROOM * options.error.intensityScale;
  const grid = { low: lo * Math.max(0, 1 - room), high: hi * (1 + room), cells: CELLS };
  const streams = sampler.continuous().map((method) => ({
    estimate: sampler.estimates.find((estimate) => estimate.method === method)!,
    stream: new Stream(method, grid),
  }));
  const onAnswers = (method: string, answers: Float64Array) => {
    streams.find(({ stream }) => stream.method === method)!.stream.add(answers);
  };
  const onBlock = () => sampler.forget();
  for (const progress of adaptiveSampling(sampler, { ...adaptive, onAnswers, onBlock })) {
    const settled = (method: string) => !progress.unsettled.includes(method);
    yield {
      ...progress,
      methods: () => streams.map(({ stream, estimate }) => stream.result(estimate, settled(stream.method))),
    };
  }
}

class Stream {
  readonly method: string;
  readonly #quantiles: GridQuantiles;
  readonly #moments = new RunningMoments();
  #drawn = 0;

  constructor(method: string, grid: { low: number; high: number; cells: number }) {
    this.method = method;
    this.#quantiles = new GridQuantiles(grid);
  }

  add(answers: Float64Array): void {
    this.#drawn += answers.length;
    this.#quantiles.add(answers);
    this.#moments.add(answers);
  }

  result(estimate: Estimate, settled: boolean): StreamedMethod {
    const { count, mean, sd } = this.#moments;
    const refusedShare = this.#drawn === 0 ? 0 : 1 - count / this.#drawn;
    const status = statusOf(refusedShare, estimate);
    const shown = this.#drawn > 0 && (status === 'shown' || status === 'caution');
    return {
      method: this.method,
      estimate,
      status,
      refusedShare,
      mean: count > 0 ? mean : null,
      sd: count > 1 ? sd : null,
      interval95: shown ? this.#interval(0.025, 0.975) : null,
      interval80: shown ? this.#interval(0.1, 0.9) : null,
      settled,
    };
  }

  #interval(low: number, high: number): Interval {
    const end = (p: number): IntervalEnd => {
      const value = this.#quantiles.quantile(p);
      if (Number.isFinite(value)) return { value, beyond: null };
      return { value: null, beyond: value < 0 ? 'below' : 'above' };
    };
    return { low: end(low), high: end(high) };
  }
}
