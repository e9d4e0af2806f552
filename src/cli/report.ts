import type { Sport } from '../base/units.ts';
import { unitOf } from '../base/units.ts';
import { readingsOf } from '../physiology/boutReadings.ts';
import { BENCH, type ErrorModel, HANDHELD } from '../physiology/errorModel.ts';
import { heartRatesOf } from '../physiology/heartRate.ts';
import { METHODS } from '../physiology/methods/index.ts';
import type { Claim } from '../physiology/methods/method.ts';
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

/** What `--json` prints. */
export interface Report {
  file: string;
  sport: Sport;
  unit: 'W' | 'km/h';
  /** How many stages, or bouts, the table holds; rest is none. */
  stages: number;
  warnings: string[];
  estimates: ReportedEstimate[];
}

const percent = (share: number) => `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;

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

function reported(sampling: MethodSampling, result: SamplingResult): ReportedEstimate {
  const { estimate } = sampling;
  const { method, claim } = estimate;
  if (estimate.refused) return { method, claim, refused: estimate.refused };
  const { curve, intensity, lactate, heartRate } = estimate;
  const isDrawn = result.draws > 0;
  return {
    method,
    claim,
    curve,
    intensity,
    lactate,
    heartRate,
    interval: isDrawn ? intervalOf(sampling) : null,
    refusedShare: isDrawn ? sampling.refusedShare : 0,
    warnings: [...estimate.warnings, ...(isDrawn ? samplingWarnings(sampling, result) : [])],
  };
}

/** What the command answers with, whatever the test brings: all but what is off, and what people judge by eye. */
const IDS = METHODS.filter((method) => !method.off && !method.spread).map(({ id }) => id);

/** The report, and what the draws say in full: the table shows more of it than the report promises. */
export interface Analysis {
  report: Report;
  result: SamplingResult;
}

/** Every method's estimate of one test, with the sampling error that the draws show. */
export function analyse(test: TestData, file: string, args: Arguments): Analysis {
  const end = args.exhaustion === null ? {} : { toExhaustion: args.exhaustion };
  const readings = readingsOf(test, end);
  const { curve, baseline, ends, anchor, slope } = args;
  const result = sampleThresholds(readings, {
    methods: IDS,
    options: { curve, baseline, ends, anchor, slope },
    error: METER_ERRORS[args.meter],
    seed: args.seed,
    draws: args.draws,
    ...(test.protocol !== 'bouts' && { heartRates: heartRatesOf(test) }),
  });
  const findings = test.protocol === 'bouts' ? [] : checkTest(test, end);
  const report = {
    file,
    sport: test.sport,
    unit: unitOf(test.axis),
    stages: test.protocol === 'bouts' ? test.bouts.length : test.stages.length,
    warnings: [...test.notes, ...findings.map(({ title, meaning }) => `${title}. ${meaning}`)],
    estimates: result.methods.map((sampling) => reported(sampling, result)),
  };
  return { report, result };
}
