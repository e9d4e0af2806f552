import { formatNumber } from '../../base/format.ts';
import { answerMark, type Mark, ON_LACTATE, scene } from '../construction.ts';
import { intensityText, lactateText } from '../refusal.ts';
import { Constant } from './estimators/level.ts';
import type { Method, MethodOptions } from './method.ts';

/**
 * Median, range and standard deviation (n − 1) of what several raters read off the same points.
 *
 * @example
 * ratings([240, 250, 245, 262]).median // 247.5
 */
export function ratings(entries: readonly number[]): {
  median: number;
  low: number;
  high: number;
  sd: number;
} {
  const sorted = entries.toSorted((a, b) => a - b);
  const half = (sorted.length - 1) / 2;
  const median = (sorted[Math.floor(half)]! + sorted[Math.ceil(half)]!) / 2;
  const mean = sorted.reduce((sum, value) => sum + value, 0) / sorted.length;
  const squares = sorted.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { median, low: sorted[0]!, high: sorted.at(-1)!, sd: Math.sqrt(squares / (sorted.length - 1)) };
}

function visual(index: 1 | 2, claim: 'LT1' | 'LT2', looksFor: string): Method {
  const entriesIn = ({ visual: entries }: MethodOptions) => entries[claim];
  return {
    id: `visual-${index}`,
    name: `Visual ${index}`,
    claim,
    meaning: `Where several people, none knowing what the others say, see ${looksFor}.`,
    source: 'Common practice: two raters or more, blinded, on the bare points without a fitted line',
    protocol: 'step',
    curve: 'raw',
    anyCurve: false,
    minPoints: 4,
    maximal: false,
    discrete: false,
    alsoNeeds: ['the entries of two raters or more'],
    bias: 'Depends on who looks; its spread is that of the raters and not that of the readings.',
    shorterStages: 'unknown',
    refusals: ['E_POINTS', 'E_EDGE'],
    applies: (_readings, options) => entriesIn(options).length > 0,
    refuses: ({ x, axis }, options) => {
      const entries = entriesIn(options);
      if (entries.length < 2) {
        return {
          code: 'E_POINTS',
          reason: `It needs the entries of at least 2 raters; there are ${entries.length}.`,
        };
      }
      const outside = entries.find((entry) => !(entry >= x[0]! && entry <= x.at(-1)!));
      if (outside === undefined) return null;
      return {
        code: 'E_EDGE',
        reason: `A rater's ${intensityText(outside, axis)} lies outside the tested range.`,
      };
    },
    prepare: (_readings, options) => {
      const entries = entriesIn(options);
      const median = entries.length > 0 ? ratings(entries).median : Number.NaN;
      return new Constant(median);
    },
    explain: () => 'It has no answer.',
    warnings: (_answer, { readings, options }) => {
      const entries = entriesIn(options);
      const { low, high, sd } = ratings(entries);
      const text = (value: number) => intensityText(value, readings.axis);
      return [
        `Median of ${entries.length} raters, from ${text(low)} to ${text(high)}, standard deviation ${formatNumber(sd, readings.axis === 'power' ? 1 : 2)}: the spread of the raters, not of the readings.`,
      ];
    },
    construct: (answer, situation) => ({
      axes: ON_LACTATE,
      marks: [
        ...scene({ ...situation, curve: null }),
        ...entriesIn(situation.options).map(
          (x, i): Mark => ({ kind: 'upright', x, label: `rater ${i + 1}` }),
        ),
        ...answerMark(answer),
      ],
      caption:
        answer === null
          ? 'The bare points, as raters see them.'
          : `The bare points with what each rater read off; the answer is the median, at ${lactateText(answer.lactate)} between the readings.`,
    }),
    spread: (options) => ratings(entriesIn(options)),
  };
}

/** Thresholds that people read off the points; never averaged with computed ones. */
export const VISUAL: readonly Method[] = [
  visual(1, 'LT1', 'lactate leave its baseline'),
  visual(2, 'LT2', 'lactate begin to rise steeply'),
];
