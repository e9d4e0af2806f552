import { orderStatistics } from '../numerics/quantiles.ts';
import { CODE_NUMBERS } from './refusal.ts';
import { REFUSAL_CODES } from './refusalCodes.ts';
import type { Interval, IntervalEnd, MethodDraws } from './samplingTypes.ts';
import { sortOut } from './sortedDraws.ts';

/** Draws of one method with those known to lie below or above the tested range. */
export interface CensoredDraws {
  /** Answers, in an order that reading quantiles off them changes. */
  answers: Float64Array;
  below: number;
  above: number;
}

/** Sorts out the draws of one method; with `scale`, answers become true intensities. */
export function censoredDraws({ x, code }: MethodDraws, scale: Float64Array | null): CensoredDraws {
  const answers = new Float64Array(x.length);
  const counts = new Int32Array(REFUSAL_CODES.length + 1);
  const answered = sortOut(x.length, x, code, scale, answers, counts);
  return { answers: answers.subarray(0, answered), ...beyondIn(counts) };
}

/** How many draws lie below and above the tested range, from how often each number of a refusal occurs. */
export const beyondIn = (counts: Int32Array): { below: number; above: number } => ({
  below: counts[CODE_NUMBERS.E_ALREADY_ABOVE]!,
  above: counts[CODE_NUMBERS.E_NOT_REACHED]!,
});

/** Draws of which single order statistics can be had, wherever they are kept. */
export interface RankedDraws {
  answered: number;
  below: number;
  above: number;
  /** Answers of these places among the answers, counted from 1 and ascending. */
  valuesAt(places: readonly number[]): number[];
}

const ranked = ({ answers, below, above }: CensoredDraws): RankedDraws => ({
  answered: answers.length,
  below,
  above,
  valuesAt: (places) => orderStatistics(answers, places),
});

const countOf = ({ answered, below, above }: RankedDraws): number => below + answered + above;

/**
 * Order statistics of rank ⌈p·B⌉ among answers and draws beyond the range; an end without a value lies beyond.
 *
 * Source    JCGM 101:2008, 7.7 (from memory); censored ends are our rule
 */
export function rankedQuantiles(draws: RankedDraws, probabilities: readonly number[]): IntervalEnd[] {
  const all = countOf(draws);
  return atRanks(
    draws,
    probabilities.map((p) => Math.ceil(p * all)),
  );
}

/** The same of draws that are at hand. */
export const censoredQuantiles = (draws: CensoredDraws, probabilities: readonly number[]): IntervalEnd[] =>
  rankedQuantiles(ranked(draws), probabilities);

/** One quantile of `censoredQuantiles`, p from 0 to 1. */
export const censoredQuantile = (draws: CensoredDraws, p: number): IntervalEnd =>
  censoredQuantiles(draws, [p])[0]!;

function atRanks(draws: RankedDraws, wanted: readonly number[]): IntervalEnd[] {
  const { answered, below } = draws;
  const places = wanted.map((rank) => Math.min(Math.max(rank, 1), countOf(draws)) - below);
  const inside = (place: number) => place >= 1 && place <= answered;
  const values = draws.valuesAt(places.filter(inside));
  let next = 0;
  return places.map((place) => {
    if (inside(place)) return { value: values[next++]!, beyond: null };
    return { value: null, beyond: place < 1 ? 'below' : 'above' };
  });
}

/** Interval that leaves out the same share of draws at both ends. */
export function censoredInterval(draws: CensoredDraws, share: number): Interval {
  const [low, high] = censoredQuantiles(draws, [(1 - share) / 2, (1 + share) / 2]);
  return { low: low!, high: high! };
}

/**
 * Monte Carlo standard error of the quantile at p: half the distance between the order statistics one binomial
 * standard deviation of rank on either side; null where one of them lies beyond the range.
 */
export function quantileError(given: CensoredDraws, p: number): number | null {
  const draws = ranked(given);
  const all = countOf(draws);
  const spread = Math.sqrt(all * p * (1 - p));
  const [low, high] = atRanks(draws, [Math.floor(all * p - spread), Math.ceil(all * p + spread)]);
  return low!.value === null || high!.value === null ? null : (high!.value - low!.value) / 2;
}
