import type { Axis } from '../base/units.ts';
import type { ErrorModel } from './errorModel.ts';
import type { Estimate } from './estimate.ts';
import type { RefusalCode } from './refusalCodes.ts';

/** Which intensity a distribution is of: the true one, or the one the athlete's own device shows. */
export type IntensityScale = 'true' | 'device';

/** One end of an interval; `value` null when it lies beyond the tested range, on the side `beyond` says. */
export interface IntervalEnd {
  value: number | null;
  beyond: 'below' | 'above' | null;
}

/** An interval of intensities, either end of which may lie beyond what was tested. */
export interface Interval {
  low: IntervalEnd;
  high: IntervalEnd;
}

/**
 * How far a result can be shown, from the share of draws that gave no answer: caution above 5 %, not determined
 * (no interval) above 20 %, not shown at all above 50 %.
 */
export type SamplingStatus = 'shown' | 'caution' | 'not-determined' | 'not-shown';

/** Smoothed density on an even grid: y per unit of intensity, whose integral is the share that answered. */
export interface Density {
  x: Float64Array;
  y: Float64Array;
}

/** How far the estimate moves when the readings change; null where either side refuses. W or km/h. */
export interface Shifts {
  /** All readings 0.1 mmol/L higher. */
  offset: number | null;
  /** All readings 5 % higher. */
  gain: number | null;
  /** Each reading alone 0.1 mmol/L higher. */
  perReading: (number | null)[];
  /** Each reading left out. */
  leaveOut: (number | null)[];
}

/** What sampling error makes of one method on one test. */
export interface MethodSampling {
  method: string;
  estimate: Estimate;
  status: SamplingStatus;
  /** Share of draws without an answer, and the same by reason. */
  refusedShare: number;
  refusedByCode: Partial<Record<RefusalCode, number>>;
  /** Of the draws that answered; null when fewer than two did. */
  mean: number | null;
  sd: number | null;
  /** Of the draws that answered or lie beyond the tested range; null where it lies beyond itself. */
  median: number | null;
  /** Null when not determined. Draws that found the threshold beyond the range count as beyond. */
  interval95: Interval | null;
  interval80: Interval | null;
  /** Heart rate at the ends of the 95 % interval, bpm; null where it cannot be told. */
  heartRate95: { low: number | null; high: number | null } | null;
  /** Monte Carlo standard error of the mean and of the ends of the 95 % interval. */
  standardError: { mean: number; low: number | null; high: number | null } | null;
  /** For methods whose answer is always a stage: share of all draws at each intensity. */
  stages: { x: number; share: number }[] | null;
  /** For the other methods; null when the draws do not spread. */
  density: Density | null;
  shifts: Shifts;
}

/** The draws of one method: nominal intensity, NaN where refused; the reason as a place in REFUSAL_CODES + 1. */
export interface MethodDraws {
  x: Float64Array;
  code: Int32Array;
}

/** Joint draws of all methods, for what needs them together. Too many for a chart: charts take the summary. */
export interface JointDraws {
  count: number;
  /** Factor from nominal to true intensity, one a draw. */
  scale: Float64Array;
  methods: ReadonlyMap<string, MethodDraws>;
}

/** What the draws say of every method that was asked. */
export interface SamplingResult {
  axis: Axis;
  /** Tested intensities, W or km/h: nothing is known beyond them. */
  lo: number;
  hi: number;
  draws: number;
  seed: number;
  error: ErrorModel;
  intensityScale: IntensityScale;
  methods: MethodSampling[];
  joint: JointDraws;
}
