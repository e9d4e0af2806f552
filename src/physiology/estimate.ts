import { readingsOf } from './boutReadings.ts';
import type { HeartRates } from './heartRate.ts';
import { heartRateAt, heartRatesOf } from './heartRate.ts';
import { Answer } from './methods/answer.ts';
import { methodsFor } from './methods/index.ts';
import type { Claim, MethodOptions } from './methods/method.ts';
import { type PreparedMethod, PreparedMethods, withDefaults } from './preparedMethods.ts';
import type { ReadingsOptions } from './readings.ts';
import type { Refusal } from './refusal.ts';
import type { CurveId, Readings, TestData } from './stepTest.ts';

/** What one method says about one test, before sampling error (src/physiology/samplingError.ts adds it). */
export type Estimate =
  | {
      method: string;
      claim: Claim;
      curve: CurveId | null;
      /** W or km/h, unrounded. */
      intensity: number;
      /** mmol/L on the curve the method read. */
      lactate: number;
      /** bpm by interpolation between completed stages; null when it cannot be told. */
      heartRate: number | null;
      warnings: string[];
      refused?: undefined;
    }
  | { method: string; claim: Claim; curve: CurveId | null; refused: Refusal };

/** Which methods are asked, how they read, and which readings count. */
export interface EstimateOptions extends Partial<MethodOptions>, ReadingsOptions {
  /** Ids of the methods wanted; when left out, all that this kind of test is meant for. */
  methods?: readonly string[];
}

/** What every method says about a test. Methods that cannot answer say why; nothing is extrapolated. */
export function estimateAll(test: TestData, options: EstimateOptions = {}): Estimate[] {
  const readings = readingsOf(test, options);
  if (test.protocol === 'bouts') return estimateReadings(readings, options);
  return estimateReadings(readings, { ...options, heartRates: heartRatesOf(test) });
}

interface ReadingsEstimateOptions extends Partial<MethodOptions> {
  methods?: readonly string[];
  heartRates?: HeartRates;
}

/** The same from readings that are already chosen. */
export function estimateReadings(readings: Readings, options: ReadingsEstimateOptions = {}): Estimate[] {
  const chosen = withDefaults(options);
  const methods = methodsFor(readings, chosen, options.methods);
  return estimatesOf(new PreparedMethods(readings, methods, chosen), options.heartRates);
}

/** Headline estimates of prepared methods on the readings they were prepared for. */
export function estimatesOf(prepared: PreparedMethods, heartRates?: HeartRates): Estimate[] {
  const answer = new Answer();
  prepared.fit(prepared.readings.y);
  return prepared.entries.map((entry, i) => {
    prepared.answer(i, prepared.readings.y, answer);
    return toEstimate(entry, answer, prepared, heartRates);
  });
}

function toEstimate(
  entry: PreparedMethod,
  answer: Answer,
  { readings, options }: PreparedMethods,
  heartRates: HeartRates | undefined,
): Estimate {
  const { method, model, curve } = entry;
  const { id, claim } = method;
  if (entry.refused) return { method: id, claim, curve: model, refused: entry.refused };
  const situation = { readings, curve, options };
  if (answer.code !== null) {
    const reason = method.explain(answer.code, situation);
    return { method: id, claim, curve: model, refused: { code: answer.code, reason } };
  }
  return {
    method: id,
    claim,
    curve: model,
    intensity: answer.x,
    lactate: answer.lactate,
    heartRate: heartRates ? heartRateAt(heartRates, answer.x) : null,
    warnings: method.warnings?.(answer, situation) ?? [],
  };
}
