import type { Sport } from '../base/units.ts';
import { unitOf } from '../base/units.ts';
import { readingsOf } from '../physiology/boutReadings.ts';
import { BENCH, type ErrorModel, HANDHELD } from '../physiology/errorModel.ts';
import type { Estimate } from '../physiology/estimate.ts';
import { heartRatesOf } from '../physiology/heartRate.ts';
import { METHODS } from '../physiology/methods/index.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { Refusal } from '../physiology/refusal.ts';
import { type MethodSampling, sampleThresholds } from '../physiology/samplingError.ts';
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
      /** 95 % interval, an end beyond the tested range being null; null where the draws determine none. */
      interval: [number | null, number | null] | null;
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
  /** Lowest and highest intensity that counts, W or km/h: a last stage that was not finished counts in part. */
  tested: [number, number];
  warnings: string[];
  estimates: ReportedEstimate[];
}

const percent = (share: number) => `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;

export const METER_ERRORS: Record<Meter, ErrorModel> = { handheld: HANDHELD, bench: BENCH };

const intervalOf = ({ interval95 }: MethodSampling): [number | null, number | null] | null =>
  interval95 && [interval95.low.value, interval95.high.value];

/** Says in words what an interval cannot: that an end lies beyond what was tested, that many draws refused. */
function samplingWarnings(sampling: MethodSampling): string[] {
  const { interval95, refusedShare, status } = sampling;
  const warnings: string[] = [];
  if (interval95?.low.beyond || interval95?.high.beyond)
    warnings.push('The 95 % interval leaves the tested range.');
  if (status === 'caution') warnings.push(`No answer in ${percent(refusedShare)} of the draws.`);
  if (status === 'not-determined' || status === 'not-shown')
    warnings.push(
      `Not reliably determined by this test: no answer in ${percent(refusedShare)} of the draws.`,
    );
  return warnings;
}

function reported(estimate: Estimate, sampling: MethodSampling | null): ReportedEstimate {
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
    interval: sampling && intervalOf(sampling),
    refusedShare: sampling?.refusedShare ?? 0,
    warnings: [...estimate.warnings, ...(sampling ? samplingWarnings(sampling) : [])],
  };
}

/** What the command answers with, whatever the test brings: all but what is off, and what people judge by eye. */
const IDS = METHODS.filter((method) => !method.off && !method.spread).map(({ id }) => id);

/** Every method's estimate of one test, with the sampling error that the draws show. */
export function reportOn(test: TestData, file: string, args: Arguments): Report {
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
  return {
    file,
    sport: test.sport,
    unit: unitOf(test.axis),
    stages: test.protocol === 'bouts' ? test.bouts.length : test.stages.length,
    tested: [readings.x[0]!, readings.x.at(-1)!],
    warnings: [...test.notes, ...findings.map(({ title, meaning }) => `${title}. ${meaning}`)],
    estimates: result.methods.map((sampling) =>
      reported(sampling.estimate, args.draws > 0 ? sampling : null),
    ),
  };
}
