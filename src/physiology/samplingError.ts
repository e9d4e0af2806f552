import { InputError } from '../base/inputError.ts';
import type { ErrorModel } from './errorModel.ts';
import type { Estimate } from './estimate.ts';
import type { HeartRates } from './heartRate.ts';
import { heartRateAt } from './heartRate.ts';
import { CompiledDraws, type DrawnBlock, isCompiled, MOST_AT_ONCE } from './kernel/compiledDraws.ts';
import { SummaryRoom } from './kernel/compiledSummary.ts';
import { methodSampling } from './methodSampling.ts';
import { Answer } from './methods/answer.ts';
import type { MethodOptions } from './methods/method.ts';
import type { PreparedMethods } from './preparedMethods.ts';
import { drawnTest, writeOthers } from './readingDraws.ts';
import { CODE_NUMBERS } from './refusal.ts';
import { type SamplingSetUp, samplingSetUp, setUpWith } from './samplingSetUp.ts';
import type {
  IntensityScale,
  JointDraws,
  MethodDraws,
  MethodSampling,
  SamplingResult,
} from './samplingTypes.ts';
import type { Readings } from './stepTest.ts';
import { isNominal, thresholdIn } from './thresholdDraws.ts';

export type {
  Density,
  IntensityScale,
  Interval,
  IntervalEnd,
  JointDraws,
  MethodDraws,
  MethodSampling,
  SamplingResult,
  SamplingStatus,
  Shifts,
} from './samplingTypes.ts';

/** What is drawn, from which errors, with which seed. */
export interface SamplerOptions {
  /** Ids of the methods wanted; when left out, all that this kind of test is meant for. */
  methods?: readonly string[];
  options?: Partial<MethodOptions>;
  /**
   * Methods made ready for a copy of these readings already, with their options; they stand for both of the above. One
   * sampler at a time may have them.
   */
  prepared?: PreparedMethods;
  error: ErrorModel;
  seed: number;
  /** For the heart rate at the ends of the interval. */
  heartRates?: HeartRates;
  /** True intensity (the scale error of the device counts), or as the same device shows it. */
  intensityScale?: IntensityScale;
}

/**
 * Sampling error of threshold methods by Monte Carlo, in as many steps as the caller likes: `run` adds draws,
 * `summary` tells what they say so far. The same draws go to every method.
 */
export class Sampler {
  readonly estimates: readonly Estimate[];
  readonly #prepared: PreparedMethods;
  readonly #readings: Readings;
  readonly #draws: CompiledDraws;
  /** Indices of the methods that the kernel runs, and of the others. */
  readonly #compiled: readonly number[];
  readonly #others: readonly number[];
  readonly #settings: Required<Pick<SamplerOptions, 'error' | 'seed' | 'intensityScale'>>;
  readonly #heartRates: HeartRates | undefined;
  readonly #setUp: SamplingSetUp;
  #count = 0;
  #scale: Float64Array = new Float64Array(0);
  #columns: MethodDraws[];

  constructor(
    readings: Readings,
    { methods, options, prepared, error, seed, heartRates, intensityScale }: SamplerOptions,
  ) {
    const setUp = prepared ? setUpWith(prepared, readings) : samplingSetUp(readings, options, methods);
    this.#readings = setUp.readings;
    this.#prepared = setUp.prepared;
    this.#setUp = setUp;
    this.estimates = setUp.estimates.map((estimate) => withHeartRate(estimate, heartRates));
    const { entries } = setUp.prepared;
    const indices = entries.map((_, m) => m);
    this.#compiled = indices.filter((m) => isCompiled(entries[m]!));
    this.#others = indices.filter((m) => !(entries[m]!.refused || isCompiled(entries[m]!)));
    this.#draws = new CompiledDraws({
      x: readings.x,
      test: drawnTest(readings, error),
      hasRest: readings.restLactate !== null,
      methods: entries.flatMap((entry) => (isCompiled(entry) ? [entry] : [])),
      lactates: this.#others.length > 0,
      seed,
    });
    this.#settings = { error, seed, intensityScale: intensityScale ?? 'true' };
    this.#heartRates = heartRates;
    this.#columns = this.estimates.map(() => ({ x: new Float64Array(0), code: new Int32Array(0) }));
  }

  /** Draws made so far. */
  get count(): number {
    return this.#count;
  }

  /** Make `draws` more draws. */
  run(draws: number): void {
    if (!Number.isSafeInteger(draws) || draws < 0) {
      throw new InputError(`the number of draws must be a whole number from 0 on, got ${draws}`, {
        field: 'draws',
      });
    }
    const from = this.#count;
    this.#grow(from + draws);
    for (let done = 0; done < draws; ) {
      const count = Math.min(draws - done, MOST_AT_ONCE);
      this.#keep(this.#draws.next(count), from + done, count);
      done += count;
    }
    this.#count = from + draws;
  }

  /** Copy a block of draws to the columns from `at` on, with the answers of the methods that are not compiled. */
  #keep(block: DrawnBlock, at: number, count: number): void {
    this.#scale.set(block.scale, at);
    this.#compiled.forEach((m, row) => {
      this.#columns[m]!.x.set(block.x.subarray(row * count, (row + 1) * count), at);
      this.#columns[m]!.code.set(block.code.subarray(row * count, (row + 1) * count), at);
    });
    for (const [m, { refused }] of this.#prepared.entries.entries()) {
      if (!refused) continue;
      this.#columns[m]!.x.fill(Number.NaN, at, at + count);
      this.#columns[m]!.code.fill(CODE_NUMBERS[refused.code], at, at + count);
    }
    if (this.#others.length > 0) this.#answerOthers(block, at, count);
  }

  #answerOthers({ lactates, others }: DrawnBlock, at: number, count: number): void {
    const slot = new Answer();
    const { readings } = this.#prepared;
    const [width, wide] = [readings.x.length, others.length / count];
    for (let d = 0; d < count; d++) {
      const y = lactates.subarray(d * width, (d + 1) * width);
      writeOthers(others.subarray(d * wide, (d + 1) * wide), readings);
      this.#prepared.fit(y, this.#others);
      for (const m of this.#others) {
        this.#prepared.answer(m, y, slot);
        this.#columns[m]!.x[at + d] = slot.x;
        this.#columns[m]!.code[at + d] = slot.code === null ? 0 : CODE_NUMBERS[slot.code];
      }
    }
  }

  /** Lets go of the draws made so far; those to come go on where these ended, and take their place. */
  forget(): void {
    this.#count = 0;
  }

  /** Ids of the methods whose estimate the draws spread over a scale: not over stages, and not over people. */
  continuous(): string[] {
    const { entries, options } = this.#prepared;
    return entries
      .filter(({ method }, m) => !(method.discrete || method.spread?.(options) || this.estimates[m]!.refused))
      .map(({ method }) => method.id);
  }

  /**
   * Answers of one of those from draw `from` on, on the scale of the summary: −∞ and ∞ where the threshold lies below
   * or above the tested range, NaN where the method refused for another reason.
   */
  answersFrom(method: string, from: number): Float64Array {
    const m = this.#prepared.entries.findIndex((entry) => entry.method.id === method);
    const column = this.#columns[m]!;
    const scaled = this.#settings.intensityScale === 'true';
    return column.x
      .slice(from, this.#count)
      .map((_, i) => thresholdIn(column, from + i) * (scaled ? this.#scale[from + i]! : 1));
  }

  /** Make room; at least twice as much as before, so that many short runs copy little. */
  #grow(needed: number): void {
    if (needed <= this.#scale.length) return;
    const size = Math.max(needed, 2 * this.#scale.length);
    this.#scale = enlarged(this.#scale, size);
    const methods = this.#columns.length;
    const x = new Float64Array(methods * size);
    const code = new Int32Array(methods * size);
    this.#columns = this.#columns.map((earlier, m) => {
      const rows = [m * size, (m + 1) * size];
      const column = { x: x.subarray(...rows), code: code.subarray(...rows) };
      column.x.set(earlier.x);
      column.code.set(earlier.code);
      return column;
    });
  }

  /** The columns as far as they are filled. */
  #joint(): JointDraws {
    const filled = this.#columns.map(({ x, code }) => ({
      x: x.subarray(0, this.#count),
      code: code.subarray(0, this.#count),
    }));
    return {
      count: this.#count,
      scale: this.#scale.subarray(0, this.#count),
      methods: new Map(this.#prepared.entries.map(({ method }, m) => [method.id, filled[m]!])),
    };
  }

  /** What the draws so far say of each method. */
  summary(): SamplingResult {
    const { error, seed, intensityScale } = this.#settings;
    const joint = this.#joint();
    const { axis, x } = this.#readings;
    return {
      axis,
      lo: x[0]!,
      hi: x[x.length - 1]!,
      draws: this.#count,
      seed,
      error,
      intensityScale,
      methods: this.#summarised(joint),
      joint,
    };
  }

  #summarised({ methods, scale }: JointDraws): MethodSampling[] {
    const isTrue = this.#settings.intensityScale === 'true';
    const room = new SummaryRoom(scale);
    const all = this.#prepared.entries.map(({ method }, m) => {
      const column = methods.get(method.id)!;
      return methodSampling({
        method,
        options: this.#prepared.options,
        estimate: this.estimates[m]!,
        column,
        figures: room.take(column, isTrue && !isNominal(method)),
        x: this.#readings.x,
        heartRates: this.#heartRates,
        shifts: () => this.#setUp.shifts[m]!,
      });
    });
    room.free();
    return all;
  }
}

/**
 * Sampling error of threshold methods: how far each estimate can be trusted, given the errors of the readings.
 *
 * Model     what the true lactates may have been is drawn around the readings (`LactateDraws`), and every method
 *           runs on the same draws; draws that find a threshold beyond the tested range count as beyond
 * Random    seeded; the Monte Carlo standard errors of the results are part of them
 * Source    JCGM 101:2008 (clauses from memory)
 */
export function sampleThresholds(
  readings: Readings,
  { draws, ...options }: SamplerOptions & { draws: number },
): SamplingResult {
  const sampler = new Sampler(readings, options);
  sampler.run(draws);
  return sampler.summary();
}

const withHeartRate = (estimate: Estimate, heartRates: HeartRates | undefined): Estimate =>
  estimate.refused || !heartRates
    ? estimate
    : { ...estimate, heartRate: heartRateAt(heartRates, estimate.intensity) };

function enlarged(from: Float64Array, size: number): Float64Array {
  const larger = new Float64Array(size);
  larger.set(from);
  return larger;
}
