import { InputError } from '../base/inputError.ts';
import { bcaInterval } from '../numerics/bcaInterval.ts';
import { type CoverageInterval, shortestInterval, symmetricInterval } from '../numerics/coverage.ts';
import { moments } from '../numerics/moments.ts';
import { Random } from '../numerics/random.ts';
import { bestCurve } from './adequateCurves.ts';
import { fitCurve } from './curves/index.ts';
import { LEAST_LACTATE } from './lactateDraws.ts';
import { Answer } from './methods/answer.ts';
import { PreparedMethods } from './preparedMethods.ts';
import { Sampler, type SamplerOptions } from './samplingError.ts';
import { samplingSetUp } from './samplingSetUp.ts';
import { SimulatedReadings } from './simulatedReadings.ts';
import type { CurveId, Readings } from './stepTest.ts';

/** What a parametric bootstrap says of one method, on the scale of the athlete's own device. */
interface BootstrapCheck {
  method: string;
  /** The method's answer on the fitted curve itself, which the replicates scatter around; null when it refuses. */
  onCurve: number | null;
  /** Standard deviation of the replicates that answered; null when fewer than two did. */
  sd: number | null;
  percentile95: CoverageInterval | null;
  /** Null where a replicate lies beyond the tested range or has no answer. */
  shortest95: CoverageInterval | null;
  /** Null when a reading cannot be left out, there are fewer than 6, or the method answers with stages. */
  bca95: CoverageInterval | null;
  refusedShare: number;
  /** The bootstrap's standard deviation over that of the draws around the readings. */
  ratio: number | null;
  /** The two differ by more than 20 %: report both (our rule). */
  disagrees: boolean;
}

/** Each method's spread by draws around the readings beside its spread over whole simulated tests. */
export interface BootstrapResult {
  /** The curve whose values stand for the true lactates. */
  curve: CurveId;
  checks: BootstrapCheck[];
}

const FEWEST_FOR_BCA = 6;
const DISAGREEMENT = 0.2;

/**
 * Cross-check of the sampling error: readings are simulated around a fitted curve instead of around the readings.
 *
 * Model     parametric bootstrap: true lactates are the values of one curve, the best adequate one unless chosen; each
 *           replicate is a test simulated from them, read by every method
 * Missing   ends of intervals are −∞ or ∞ where replicates lie beyond the tested range
 * Random    stream 1 of the seed; the draws that it is compared with are those of the same seed
 * Source    Efron & Tibshirani 1993, An Introduction to the Bootstrap, ch. 6, 13 and 14 (from memory)
 */
export function bootstrapCheck(
  readings: Readings,
  options: SamplerOptions & { draws: number; curve?: CurveId },
): BootstrapResult {
  const last = [...bootstrapInSteps(readings, options)].at(-1);
  if (last?.result) return last.result;
  throw new InputError(`the number of draws must be a whole number from 1 on, got ${options.draws}`, {
    field: 'draws',
  });
}

/** Replicates after which the caller gets control back: a few milliseconds. */
const SLICE = 200;

/** The same a few replicates at a time, for a page that has to stay alive meanwhile; the last step has the result. */
export function* bootstrapInSteps(
  readings: Readings,
  { draws, curve, ...given }: SamplerOptions & { draws: number; curve?: CurveId },
): Generator<{ share: number; result: BootstrapResult | null }, void> {
  const model = curve ?? bestCurve(readings, given.error);
  const { entries, options } = samplingSetUp(readings, given.options, given.methods).prepared;
  const fitted = fitCurve(readings, { model });
  const truth = { ...readings, y: readings.x.map((x) => Math.max(LEAST_LACTATE, fitted.at(x))) };
  const simulated = new SimulatedReadings(truth, given.error, new Random(given.seed, 1));
  const methods = entries.map(({ method }) => method);
  const prepared = new PreparedMethods(simulated.readings, methods, options);
  const onCurve = answersOrBeyond(prepared);
  const columns = methods.map(() => new Float64Array(draws));
  const around = new Sampler(readings, { ...given, intensityScale: 'device' });
  for (let from = 0; from < draws; from += SLICE) {
    const to = Math.min(from + SLICE, draws);
    for (let d = from; d < to; d++) {
      simulated.next();
      answersOrBeyond(prepared).forEach((answer, m) => {
        columns[m]![d] = answer;
      });
    }
    around.run(to - from);
    if (to < draws) yield { share: to / draws, result: null };
  }
  const checks = around.summary().methods.map(({ method, sd, estimate, shifts, stages }, m) => {
    const left = estimate.refused || stages ? [] : shifts.leaveOut.map((shift) => shift ?? Number.NaN);
    return checkOf(method, columns[m]!, { onCurve: onCurve[m]!, sampledSd: sd, left });
  });
  yield { share: 1, result: { curve: model, checks } };
}

/** Answers for the readings as they stand: −∞ and ∞ beyond the tested range, NaN where refused. */
function answersOrBeyond(prepared: PreparedMethods): number[] {
  const slot = new Answer();
  const { y } = prepared.readings;
  prepared.fit(y);
  return prepared.entries.map((_, m) => {
    prepared.answer(m, y, slot);
    if (slot.code === 'E_ALREADY_ABOVE') return Number.NEGATIVE_INFINITY;
    return slot.code === 'E_NOT_REACHED' ? Number.POSITIVE_INFINITY : slot.x;
  });
}

function checkOf(
  method: string,
  replicates: Float64Array,
  { onCurve, sampledSd, left }: { onCurve: number; sampledSd: number | null; left: number[] },
): BootstrapCheck {
  const answered = replicates.filter(Number.isFinite);
  const sd = answered.length < 2 ? null : moments(answered).sd;
  const percentile95 = sd === null ? null : symmetricInterval(replicates, 0.95);
  const enough = sd !== null && Number.isFinite(onCurve) && left.length >= FEWEST_FOR_BCA;
  // Only differences of the leave-one-out estimates count, so their shifts serve as well.
  const bca = enough ? bcaInterval(replicates, { estimate: onCurve, leaveOneOut: left, share: 0.95 }) : null;
  const ratio = sd !== null && sampledSd !== null && sampledSd > 0 ? sd / sampledSd : null;
  return {
    method,
    onCurve: Number.isFinite(onCurve) ? onCurve : null,
    sd,
    percentile95,
    shortest95:
      sd !== null && answered.length === replicates.length ? shortestInterval(replicates, 0.95) : null,
    bca95: bca && !Number.isNaN(bca.low) ? { low: bca.low, high: bca.high } : null,
    refusedShare: 1 - answered.length / replicates.length,
    ratio,
    disagrees: ratio !== null && Math.max(ratio, 1 / ratio) > 1 + DISAGREEMENT,
  };
}
