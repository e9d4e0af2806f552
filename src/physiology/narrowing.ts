import { bestCurve } from './adequateCurves.ts';
import { fitCurve } from './curves/index.ts';
import { LEAST_LACTATE } from './lactateDraws.ts';
import { type SamplerOptions, sampleThresholds } from './samplingError.ts';
import type { Interval, MethodSampling } from './samplingTypes.ts';
import type { CurveId, Readings } from './stepTest.ts';

/** One thing that could have been done more in a test: a second sample at a stage, a stage between two, or all of these. */
export type MoreData =
  | { kind: 'repeat'; x: number }
  | { kind: 'added'; x: number }
  /** Stages half as far apart; `x` is the new distance, the mean one where they differ. */
  | { kind: 'finer'; x: number };

/** What more data would do to one method's 95 % interval. */
export interface MethodNarrowing {
  method: string;
  /** Width of the interval as the test stands, W or km/h; null when an end lies beyond the tested range. */
  width: number | null;
  /** Width with each of the steps, over the width as it stands; null where either is unknown. */
  ratios: (number | null)[];
  /** The step of each kind that narrows the interval most; null when none does by more than the draws' own error. */
  best: Record<MoreData['kind'], number | null>;
}

/** What more data would do to each method's 95 % interval, as far as it was looked at. */
export interface Narrowing {
  /** The curve on which the readings of added stages are taken to lie; null when none are considered. */
  curve: CurveId | null;
  /** What was looked at so far. */
  steps: MoreData[];
  methods: MethodNarrowing[];
  /** Share of the work done. */
  share: number;
}

/** What is looked at, and with how many draws. */
export interface NarrowingOptions extends SamplerOptions {
  /** Draws of each case. */
  draws: number;
  kinds?: readonly MoreData['kind'][];
}

/**
 * Which single repeat reading, added stage or finer increment would narrow each interval most; one case a step, each
 * with what is known so far, so that a page can stay alive meanwhile.
 *
 * Model     a repeat is taken to read what the first sample read, an added stage what the best adequate curve says, so
 *           that mainly the errors shrink: noise, rounding and contamination are averaged over more samples
 * Random    the same seed in every case; repeats also use the same draws, so that their ratios carry little error
 * Missing   added and finer stages for tests that are no row of rising stages. The error that a test shares (gain,
 *           offset, scale of the device) is narrowed by nothing of this
 * Cost      a run of draws for each case and one more
 */
export function* narrowing(readings: Readings, options: NarrowingOptions): Generator<Narrowing, void> {
  const { kinds = ['repeat', 'added', 'finer'] } = options;
  const rising = readings.protocol === 'step' && !readings.falling;
  const curve = rising && kinds.some((kind) => kind !== 'repeat') ? bestCurve(readings, options.error) : null;
  const cases = casesOf(readings, curve).filter(({ step }) => kinds.includes(step.kind));
  const base = sampleThresholds(readings, options).methods;
  const narrowed: MethodSampling[][] = [];
  for (const { more } of cases) {
    narrowed.push(sampleThresholds(more, options).methods);
    const steps = cases.slice(0, narrowed.length).map(({ step }) => step);
    const methods = base.map((one, m) =>
      narrowingOf(
        one,
        narrowed.map((all) => all[m]!),
        steps,
      ),
    );
    yield { curve, steps, methods, share: narrowed.length / cases.length };
  }
}

interface Case {
  step: MoreData;
  more: Readings;
}

function casesOf(readings: Readings, curve: CurveId | null): Case[] {
  const { x } = readings;
  const repeats = Array.from(
    x,
    (at, i): Case => ({ step: { kind: 'repeat', x: at }, more: withRepeat(readings, i) }),
  );
  if (curve === null) return repeats;
  const fitted = fitCurve(readings, { model: curve });
  const gaps = Array.from({ length: x.length - 1 }, (_, i) => i);
  const withStages = (after: readonly number[]) =>
    [...after].reverse().reduce((more, i) => withStage(more, i, (at) => fitted.at(at)), readings);
  const added = gaps.map((i): Case => ({ step: { kind: 'added', x: middle(x, i) }, more: withStages([i]) }));
  const distance = (x.at(-1)! - x[0]!) / gaps.length / 2;
  return [...repeats, ...added, { step: { kind: 'finer', x: distance }, more: withStages(gaps) }];
}

const middle = (x: Float64Array, i: number) => (x[i]! + x[i + 1]!) / 2;

const withRepeat = (readings: Readings, at: number): Readings => ({
  ...readings,
  count: readings.count.map((samples, i) => (i === at ? samples + 1 : samples)),
});

/** The readings with one stage more, halfway between the one at `i` and the next. */
function withStage(readings: Readings, i: number, lactateAt: (x: number) => number): Readings {
  const { x, y, count, stage, minute, stageMinutes } = readings;
  const put = <T extends Float64Array | Uint8Array | Int32Array>(values: T, value: number): T => {
    const longer = new (values.constructor as new (length: number) => T)(values.length + 1);
    longer.set(values.subarray(0, i + 1));
    longer[i + 1] = value;
    longer.set(values.subarray(i + 1), i + 2);
    return longer;
  };
  const between = middle(x, i);
  const length = stageMinutes ?? 0;
  const later = minute?.map((end, k) => (k > i ? end + length : end)) ?? null;
  return {
    ...readings,
    x: put(x, between),
    y: put(y, Math.max(LEAST_LACTATE, lactateAt(between))),
    count: put(count, 1),
    stage: put(stage, -1),
    minute: later && put(later, minute![i]! + length),
  };
}

const widthOf = (interval: Interval | null): number | null =>
  interval?.low.value == null || interval.high.value === null
    ? null
    : interval.high.value - interval.low.value;

function narrowingOf(
  { method, interval95, standardError }: MethodSampling,
  narrowed: readonly MethodSampling[],
  steps: readonly MoreData[],
): MethodNarrowing {
  const width = widthOf(interval95);
  const ratios = narrowed.map((more) => {
    const less = widthOf(more.interval95);
    return width === null || less === null || width === 0 ? null : less / width;
  });
  const error = width === null ? 0 : Math.hypot(standardError?.low ?? 0, standardError?.high ?? 0) / width;
  // Repeats share their draws; the others have draws of their own, and twice the variance.
  const least = { repeat: 1 - error, added: 1 - Math.SQRT2 * error, finer: 1 - Math.SQRT2 * error };
  const best: MethodNarrowing['best'] = { repeat: null, added: null, finer: null };
  for (const [k, { kind }] of steps.entries()) {
    const ratio = ratios[k]!;
    const before = best[kind];
    if (ratio !== null && ratio < (before === null ? least[kind] : ratios[before]!)) best[kind] = k;
  }
  return { method, width, ratios, best };
}
