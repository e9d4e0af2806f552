import { checkedErrorModel, type ErrorModel, NO_ERROR } from './errorModel.ts';
import { methodsFor } from './methods/index.ts';
import { PreparedMethods, withDefaults } from './preparedMethods.ts';
import { noiseTerms, repeatabilityOf } from './readingDraws.ts';
import { type SamplerOptions, sampleThresholds } from './samplingError.ts';
import { answersOf, changed } from './shifts.ts';
import type { Readings } from './stepTest.ts';

/** Sources of error, each with the terms of the error model that belong to it. */
export const SOURCES = {
  repeatability: ['repeatability', 'repeatabilityShare'],
  rounding: ['rounding'],
  delay: ['delay'],
  contamination: ['contamination', 'contaminationSize'],
  intensityJitter: ['intensityJitter'],
  gain: ['gain'],
  offset: ['offset'],
  intensityScale: ['intensityScale'],
} as const satisfies Record<string, readonly (keyof ErrorModel)[]>;

/** One of `SOURCES`. */
export type ErrorSource = keyof typeof SOURCES;
const NAMES = Object.keys(SOURCES) as ErrorSource[];

interface FirstOrderShares {
  method: string;
  /** Standard deviation to first order, W or km/h. */
  sd: number;
  /** Share of the variance by source; they add up to 1, or are all 0 without any error. */
  bySource: Record<ErrorSource, number>;
  /** Share of the variance that comes from the errors of each reading alone. */
  byReading: number[];
}

/** Half the change of readings that slopes are taken over: mmol/L, and as a fraction of all of them. */
const STEP = 0.05;
const GAIN_STEP = 0.01;

/**
 * Which source of error and which reading an estimate owes its spread to, to first order: at once, without draws.
 *
 * Model     variance = Σ(slope·SD)² over independent errors, slopes by central differences of 0.05 mmol/L; errors that
 *           a test shares are moved in all its samples together
 * Missing   null for methods that refuse here or a step away, and for those that answer with stages
 * Error     good while a method is close to straight over its errors: compare with the draws, and where the two differ
 *           by more than 25 % believe the draws (our rule)
 * Source    JCGM 100:2008, 5.1 (law of propagation of uncertainty; from memory)
 */
export function firstOrderShares(
  readings: Readings,
  { methods: ids, options, error, intensityScale = 'true' }: Omit<SamplerOptions, 'seed'>,
): (FirstOrderShares | null)[] {
  checkedErrorModel(error);
  const chosen = withDefaults(options);
  const methods = methodsFor(readings, chosen, ids);
  // A copy of its own: moved lactates at rest, before and after the test are written into it.
  const prepared = new PreparedMethods(
    changed(readings, (y) => y),
    methods,
    chosen,
  );
  const answers = answersOf(prepared);
  const slopes = slopesOf(readings, prepared);
  return methods.map(({ id, discrete }, m) => {
    const scale = intensityScale === 'true' ? answers[m]! * error.intensityScale : 0;
    const own = readings.y.map((_, i) => slopes.readings[i]![m]!);
    const others = slopes.others.map(({ lactate, slope }) => ({ lactate, slope: slope[m]! }));
    const variances = ownVariances(readings, own, others, error);
    variances.bySource.gain = (slopes.gain[m]! * error.gain) ** 2;
    variances.bySource.offset = (slopes.offset[m]! * error.offset) ** 2;
    variances.bySource.intensityScale = scale ** 2;
    const total = NAMES.reduce((sum, name) => sum + variances.bySource[name], 0);
    return discrete || !Number.isFinite(total) ? null : sharesOf(id, total, variances);
  });
}

interface Variances {
  bySource: Record<ErrorSource, number>;
  byReading: number[];
}

function sharesOf(method: string, total: number, { bySource, byReading }: Variances): FirstOrderShares {
  const share = (variance: number) => (total > 0 ? variance / total : 0);
  const shares = NAMES.map((name) => [name, share(bySource[name])] as const);
  return {
    method,
    sd: Math.sqrt(total),
    bySource: Object.fromEntries(shares) as Record<ErrorSource, number>,
    byReading: byReading.map(share),
  };
}

/** Variances from the errors that each sample has for itself. */
function ownVariances(
  readings: Readings,
  slopes: Float64Array,
  others: { lactate: number; slope: number }[],
  error: ErrorModel,
): Variances {
  const bySource = Object.fromEntries(NAMES.map((name) => [name, 0])) as Record<ErrorSource, number>;
  const add = (name: ErrorSource, slope: number, variance: number) => {
    bySource[name] += slope ** 2 * variance;
    return slope ** 2 * variance;
  };
  const { rounding, contamination, contaminationSize } = error;
  // An exponential of mean m that happens with chance p: mean p·m, mean square 2p·m².
  const dirt = (2 * contamination - contamination ** 2) * contaminationSize ** 2;
  const byReading = Array.from(slopes, (slope, i) => {
    const samples = readings.count[i]!;
    const terms = noiseTerms(readings, i, error);
    const normal = (['repeatability', 'delay', 'intensityJitter'] as const).map((name) =>
      add(name, slope, terms[name] ** 2 / samples),
    );
    const rest =
      add('rounding', slope, rounding ** 2 / 12 / samples) + add('contamination', slope, dirt / samples);
    return normal.reduce((sum, variance) => sum + variance, rest);
  });
  for (const { lactate, slope } of others) {
    add('repeatability', slope, repeatabilityOf(lactate, error) ** 2);
    add('rounding', slope, rounding ** 2 / 12);
    add('contamination', slope, dirt);
  }
  return { bySource, byReading };
}

/** Slopes of every method's answer: by each reading, by each sample that is no point of the curve, by all together. */
function slopesOf(readings: Readings, prepared: PreparedMethods) {
  const copy = prepared.readings;
  const answersAt = (moved: Readings) => {
    copy.restLactate = moved.restLactate;
    copy.lactateBefore = moved.lactateBefore;
    if (moved.recovery) copy.recovery!.lactate.set(moved.recovery.lactate);
    return answersOf(prepared, moved.y);
  };
  const along = (moved: (by: number) => Readings, step: number) => {
    const [up, down] = [answersAt(moved(step)), answersAt(moved(-step))];
    return up.map((value, m) => (value - down[m]!) / (2 * step));
  };
  const one = (values: Float64Array, at: number, by: number) => values.map((v, i) => (i === at ? v + by : v));
  const { restLactate, lactateBefore, recovery } = readings;
  const others: { lactate: number; slope: number[] }[] = [];
  const other = (lactate: number | null, moved: (by: number) => Readings) => {
    if (lactate !== null) others.push({ lactate, slope: along(moved, STEP) });
  };
  other(restLactate, (by) => ({ ...readings, restLactate: restLactate! + by }));
  other(lactateBefore, (by) => ({ ...readings, lactateBefore: lactateBefore! + by }));
  recovery?.lactate.forEach((lactate, k) => {
    other(lactate, (by) => ({
      ...readings,
      recovery: { ...recovery, lactate: one(recovery.lactate, k, by) },
    }));
  });
  return {
    readings: Array.from(readings.y, (_, i) =>
      along((by) => ({ ...readings, y: one(readings.y, i, by) }), STEP),
    ),
    others,
    offset: along((by) => changed(readings, (y) => y + by), STEP),
    gain: along((by) => changed(readings, (y) => y * (1 + by)), GAIN_STEP),
  };
}

interface OneAtATime {
  method: string;
  /** Standard deviation with every source on; null when fewer than two draws answered. */
  all: number | null;
  /** The same with one source on and the others off. */
  alone: Record<ErrorSource, number | null>;
}

/** The spread that each source of error gives alone, by draws: what first order cannot see of bends and jumps. */
export function oneAtATime(
  readings: Readings,
  { error, ...given }: SamplerOptions & { draws: number },
): OneAtATime[] {
  const spreads = (model: ErrorModel) =>
    sampleThresholds(readings, { ...given, error: model }).methods.map(({ method, sd }) => ({ method, sd }));
  const alone = NAMES.map((name) => {
    const terms = SOURCES[name].map((term) => [term, error[term]] as const);
    return spreads({ ...NO_ERROR, ...Object.fromEntries(terms) });
  });
  return spreads(error).map(({ method, sd }, m) => ({
    method,
    all: sd,
    alone: Object.fromEntries(NAMES.map((name, k) => [name, alone[k]![m]!.sd])) as OneAtATime['alone'],
  }));
}
