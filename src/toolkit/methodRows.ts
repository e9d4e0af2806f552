import type { SensitivityRow } from '../charts/sensitivityChart.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Claim } from '../physiology/methods/method.ts';
import type { Interval, MethodSampling, SamplingResult } from '../physiology/samplingTypes.ts';
import { type TableView, table } from '../view/view.ts';
import { bareRange, type Display, intensityWords, percentWords, type Shown } from './display.ts';

/** A method with an answer, and what sampling error makes of it. */
export interface Answered {
  id: string;
  name: string;
  claim: Claim;
  /** W or km/h. */
  intensity: number;
  lactate: number;
  heartRate: number | null;
  warnings: string[];
  sd: number | null;
  /** How it is shown: to the digits its error allows, or as the stage that it is. */
  digits: Shown;
  interval: Interval | null;
  sampling: MethodSampling;
}

/** A method without one, and why. */
interface Unanswered {
  id: string;
  name: string;
  claim: Claim;
  reason: string;
  /** True when the readings as they are give an answer, but too few of the draws. */
  lost: boolean;
}

/** The methods that give an answer worth showing. */
export const answered = (result: SamplingResult): Answered[] =>
  result.methods.flatMap((sampling) => {
    const { estimate, status, sd, interval95 } = sampling;
    if (estimate.refused || status === 'not-shown') return [];
    const { claim, intensity, lactate, heartRate, warnings } = estimate;
    const { id, name } = methodById(sampling.method);
    const digits = sampling.stages === null ? { sd } : { asSet: true };
    return [
      {
        id,
        name,
        claim,
        intensity,
        lactate,
        heartRate,
        warnings,
        sd,
        digits,
        interval: interval95,
        sampling,
      },
    ];
  });

/** The methods that refuse, or whose answer does not survive the errors of the test. */
export const unanswered = (result: SamplingResult): Unanswered[] =>
  result.methods.flatMap((sampling): Unanswered[] => {
    const { id, name, claim } = methodById(sampling.method);
    const { estimate, status, refusedShare } = sampling;
    if (estimate.refused) return [{ id, name, claim, reason: estimate.refused.reason, lost: false }];
    if (status !== 'not-shown') return [];
    const reason = `It has no answer in ${percentWords(refusedShare)} of the draws, so this test does not determine it.`;
    return [{ id, name, claim, reason, lost: true }];
  });

/** Methods without an answer and why, as a table; null when there are none. */
export const refusalTable = (refused: readonly Unanswered[]): TableView | null =>
  refused.length === 0
    ? null
    : table({
        caption: 'No answer from this test',
        columns: [
          { key: 'name', heading: 'Method' },
          { key: 'reason', heading: 'Why' },
        ],
        rows: refused.map(({ name, reason }) => ({ name, reason })),
      });

/** One method's answer; null when it has none. */
export const answerOf = (result: SamplingResult, method: string): Answered | null =>
  answered(result).find((answer) => answer.id === method) ?? null;

/** Interval as a chart wants it: an end beyond the tested range is infinite. */
export function limits(interval: Interval | null): [number, number] | null {
  if (interval === null) return null;
  const end = (value: number | null, beyond: string | null) => {
    if (value !== null) return value;
    return beyond === 'below' ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  };
  return [end(interval.low.value, interval.low.beyond), end(interval.high.value, interval.high.beyond)];
}

/** Answered methods as rows of a chart. */
export const chartRows = (
  result: SamplingResult,
  display: Display,
): (SensitivityRow & { lactate: number })[] =>
  answered(result).map(({ name, claim, intensity, lactate, digits, interval, sampling }) => ({
    name,
    claim,
    intensity,
    lactate,
    value: intensityWords(intensity, display, digits),
    range: interval === null ? 'not determined' : bareRange(interval, display, digits),
    quiet: interval === null,
    interval: limits(interval),
    density: sampling.density,
    stages: sampling.stages,
  }));

/** `between 236 and 262 W`, or `at 236 W` when there is one answer; null without any. */
export function spanWords(answers: readonly Answered[], display: Display): string | null {
  if (answers.length === 0) return null;
  const sorted = answers.toSorted((a, b) => a.intensity - b.intensity);
  const [low, high] = [sorted[0]!, sorted.at(-1)!].map((a) => intensityWords(a.intensity, display, a.digits));
  return low === high ? `at ${low}` : `between ${low} and ${high}`;
}
