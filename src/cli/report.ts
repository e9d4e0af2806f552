import type { Sport } from '../base/units.ts';
import { unitOf } from '../base/units.ts';
import { readingsOf } from '../physiology/boutReadings.ts';
import { BENCH, type ErrorModel, HANDHELD } from '../physiology/errorModel.ts';
import { type Estimate, estimatesOf } from '../physiology/estimate.ts';
import { heartRatesOf } from '../physiology/heartRate.ts';
import { METHODS } from '../physiology/methods/index.ts';
import type { Claim } from '../physiology/methods/method.ts';
import { type PreparedMethods, withDefaults } from '../physiology/preparedMethods.ts';
import { intensityText, type Refusal } from '../physiology/refusal.ts';
import {
  type Interval,
  type MethodSampling,
  type SamplingResult,
  sampleThresholds,
} from '../physiology/samplingError.ts';
import type { CurveId, TestData } from '../physiology/stepTest.ts';
import { checkTest } from '../physiology/testChecks.ts';
import type { Arguments, Meter } from './arguments.ts';
import { PreparedTests } from './batch/preparedTests.ts';

/** What is printed of one method: its answer with the sampling error, or why it gives none. */
export type ReportedEstimate =
  | {
      method: string;
      claim: Claim;
      curve: CurveId | null;
      /** W or km/h, unrounded. */
      intensity: number;
      lactate: number;
      heartRate: number | null;
      /** 95 % interval; null where an end lies beyond the tested range, or the draws determine none. */
      interval: [number, number] | null;
      /** Share of draws that gave no answer. */
      refusedShare: number;
      warnings: string[];
    }
  | { method: string; claim: Claim; refused: Refusal };

/** What `--json` and `--batch` print of a test, beside its name. */
export interface TestReport {
  sport: Sport;
  unit: 'W' | 'km/h';
  /** How many stages, or bouts, the table holds; rest is none. */
  stages: number;
  /** What the reader had to decide; in the report of one test also what its checks found. */
  warnings: string[];
  estimates: ReportedEstimate[];
}

/** What `--json` prints. */
export interface Report extends TestReport {
  file: string;
}

const percent = (share: number) => `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;

/** The error model of each meter (`errorModel.ts` says where its figures come from). */
export const METER_ERRORS: Record<Meter, ErrorModel> = { handheld: HANDHELD, bench: BENCH };

function intervalOf({ interval95 }: MethodSampling): [number, number] | null {
  if (interval95 === null) return null;
  const { low, high } = interval95;
  return low.value === null || high.value === null ? null : [low.value, high.value];
}

/** Where the 95 % interval ends, when not both ends lie within what was tested. */
function openInterval({ low, high }: Interval, { axis, lo, hi }: SamplingResult): string[] {
  if (low.value !== null && high.value !== null) return [];
  const [lowest, highest] = [intensityText(lo, axis), intensityText(hi, axis)];
  const from = low.value === null ? `below the tested ${lowest}` : `at ${intensityText(low.value, axis)}`;
  const to = high.value === null ? `above the tested ${highest}` : `at ${intensityText(high.value, axis)}`;
  return [`The 95 % interval is open: its lower end lies ${from}, its upper end ${to}.`];
}

/** Says in words what an interval cannot: that an end lies beyond what was tested, that many draws refused. */
function samplingWarnings(sampling: MethodSampling, result: SamplingResult): string[] {
  const { interval95, refusedShare, status } = sampling;
  const warnings = interval95 === null ? [] : openInterval(interval95, result);
  if (status === 'caution') warnings.push(`No answer in ${percent(refusedShare)} of the draws.`);
  if (status === 'not-determined' || status === 'not-shown')
    warnings.push(
      `Not reliably determined by this test: no answer in ${percent(refusedShare)} of the draws.`,
    );
  return warnings;
}

/** An estimate with what the draws say of it, if any were made. */
function reported(
  estimate: Estimate,
  drawn: { sampling: MethodSampling; result: SamplingResult } | null,
): ReportedEstimate {
  const { method, claim } = estimate;
  if (estimate.refused) return { method, claim, refused: estimate.refused };
  const { curve, intensity, lactate, heartRate } = estimate;
  return {
    method,
    claim,
    curve,
    intensity,
    lactate,
    heartRate,
    interval: drawn && intervalOf(drawn.sampling),
    refusedShare: drawn?.sampling.refusedShare ?? 0,
    warnings: drawn
      ? [...estimate.warnings, ...samplingWarnings(drawn.sampling, drawn.result)]
      : estimate.warnings,
  };
}

function reportedSamplings(result: SamplingResult): ReportedEstimate[] {
  const isDrawn = result.draws > 0;
  return result.methods.map((sampling) => reported(sampling.estimate, isDrawn ? { sampling, result } : null));
}

/** What the command answers with, whatever the test brings: all but what is off, and what people judge by eye. */
const IDS = METHODS.filter((method) => !method.off && !method.spread).map(({ id }) => id);

/** The report, and what the draws say in full: the table shows more of it than the report promises. */
export interface Analysis {
  report: Report;
  result: SamplingResult;
}

/** What the arguments say to readings and methods. */
function setUp(test: TestData, { exhaustion, curve, baseline, ends, anchor, slope }: Arguments) {
  const end = exhaustion === null ? {} : { toExhaustion: exhaustion };
  return {
    end,
    readings: readingsOf(test, end),
    options: { curve, baseline, ends, anchor, slope },
    ...(test.protocol !== 'bouts' && { heartRates: heartRatesOf(test) }),
  };
}

/** What the draws say of a test; with methods made ready for it, if there are any. */
function sampled(
  { readings, options, heartRates }: ReturnType<typeof setUp>,
  { meter, seed, draws }: Arguments,
  prepared?: PreparedMethods,
): SamplingResult {
  const given = prepared ? { prepared } : { methods: IDS, options };
  return sampleThresholds(readings, { ...given, error: METER_ERRORS[meter], seed, draws, heartRates });
}

const aboutTest = (test: TestData): Pick<TestReport, 'sport' | 'unit' | 'stages'> => ({
  sport: test.sport,
  unit: unitOf(test.axis),
  stages: test.protocol === 'bouts' ? test.bouts.length : test.stages.length,
});

/** Every method's estimate of one test, with the sampling error that the draws show. */
export function analyse(test: TestData, file: string, args: Arguments): Analysis {
  const set = setUp(test, args);
  const result = sampled(set, args);
  const findings = test.protocol === 'bouts' ? [] : checkTest(test, set.end);
  const warnings = [...test.notes, ...findings.map(({ title, meaning }) => `${title}. ${meaning}`)];
  return { report: { file, ...aboutTest(test), warnings, estimates: reportedSamplings(result) }, result };
}

/** The same for many tests, one after the other; the checks of a whole test take longer than its estimates and are left out. */
export function reporter(args: Arguments): (test: TestData) => TestReport {
  const { curve, baseline, ends, anchor, slope } = args;
  const prepared = new PreparedTests(IDS, withDefaults({ curve, baseline, ends, anchor, slope }));
  return (test) => {
    const set = setUp(test, args);
    const methods = prepared.methodsFor(set.readings);
    const estimates =
      args.draws > 0
        ? reportedSamplings(sampled(set, args, methods))
        : estimatesOf(methods, set.heartRates).map((estimate) => reported(estimate, null));
    return { ...aboutTest(test), warnings: test.notes, estimates };
  };
}
