import { formatNumber } from '../../base/format.ts';
import { type Spread, spreadOf } from '../../numerics/quantiles.ts';
import { Random } from '../../numerics/random.ts';
import type { TrainingLevel } from './fromThreshold.ts';
import { HOUR, type Way, wayFromThreshold } from './hourSources.ts';
import { drawShift, type FitnessShift, NOTHING_SINCE, type SinceTest, shiftSince } from './trainingBreak.ts';

export { HOUR } from './hourSources.ts';

/** All that is known of an athlete who wants to know what could be held for an hour. */
export interface HourOptions {
  /** What `waysFromEfforts` found in the best efforts. */
  fromEfforts: readonly Way[];
  /** Draws of the second threshold on the same axis, −∞ and ∞ beyond the tested range, and its best value. */
  threshold: { draws: Float64Array; middle: number } | null;
  level: TrainingLevel;
  /** What the athlete says, W or km/h. */
  claim: number | null;
  since?: SinceTest;
  /** Share taken off for heat, hills, no drink or no company, as the reader chose. */
  allowance?: number;
  seed: number;
}

/** One way to the intensity of an hour, and what came of it. */
export interface HourWay extends Way {
  /** True when an hour is within its range and most draws have an answer: then it is part of the answer. */
  counts: boolean;
  /** Why it does not count; null when it does. */
  why: string | null;
  /** W or km/h held for an hour; null without an answer. Outside the range it is shown and not used. */
  hour: Spread | null;
  /** Seconds that the claim is held; infinite where the model sees no end. */
  atClaim: Spread | null;
}

/** Spreads hold the 95 % interval; an end may be infinite where draws lie beyond what was tested. */
export interface HourAnswer {
  ways: HourWay[];
  /** The ways that count, pooled draw by draw in equal parts; null when none does. */
  hour: Spread | null;
  /** The same without the break and the allowance. */
  asTested: Spread | null;
  /** Chance that the claim can be held for an hour. */
  chance: number | null;
  shift: FitnessShift;
  /** What does not fit together, in sentences. */
  disagreements: string[];
}

/** Share of draws without an answer above which a way has none (as for thresholds). */
const MOST_LOST = 0.2;

/**
 * What can be held for an hour, by every way there is to it, and how likely a claimed intensity is among it.
 *
 * Model     the ways whose range holds 60 min (power law, log-time decline, second threshold) are pooled in equal parts;
 *           critical intensity is shown and never used for it. A break and an allowance shift all draws alike
 * Random    seeded; efforts, threshold and break are drawn independently
 * Source    our rule; what each way rests on stands with it
 */
export function holdForAnHour(options: HourOptions): HourAnswer {
  const { fromEfforts, threshold, level, claim, seed } = options;
  const shift = shiftSince(options.since ?? NOTHING_SINCE);
  const ways = [
    ...fromEfforts,
    ...(threshold ? [wayFromThreshold(threshold.draws, threshold.middle, level, new Random(seed, 2))] : []),
  ];
  const random = new Random(seed, 3);
  const most = Math.max(0, ...ways.map((way) => way.draws.length));
  const factors = Float64Array.from(
    { length: most },
    () => (1 - (options.allowance ?? 0)) * drawShift(shift, random),
  );
  const judged = ways.map((way) => judge(way, claim, factors));
  const counting = judged.filter((way) => way.counts);
  const chances = claim === null || shift.retest ? [] : counting.map((way) => chanceOf(way, claim, factors));
  return {
    ways: judged,
    hour: shift.retest ? null : pooled(counting, factors),
    asTested: pooled(counting, null),
    chance: chances.length === 0 ? null : chances.reduce((sum, one) => sum + one, 0) / chances.length,
    shift,
    disagreements: disagreementsOf(judged, threshold?.middle ?? null),
  };
}

function judge(way: Way, claim: number | null, factors: Float64Array): HourWay {
  const lost = way.draws.filter((curve) => curve === null).length / Math.max(1, way.draws.length);
  const why = whyNot(way, lost);
  const hour = way.refused === null ? knownSpread(hourDraws(way, factors)) : null;
  const seconds =
    claim === null ? [] : way.draws.map((curve, d) => curve?.secondsAt(claim / factors[d]!) ?? NaN);
  return { ...way, counts: why === null, why, hour, atClaim: knownSpread(Float64Array.from(seconds)) };
}

function whyNot({ refused, range }: Way, lost: number): string | null {
  if (refused !== null) return refused;
  if (lost > MOST_LOST) return `${formatNumber(100 * lost, 0)} % of the draws give no answer.`;
  if (HOUR >= range.from && HOUR <= range.to) return null;
  return `An hour is outside its range: it holds from ${minutes(range.from)} to ${minutes(range.to)} min.`;
}

const minutes = (seconds: number) => formatNumber(seconds / 60, seconds < 600 && seconds % 60 !== 0 ? 1 : 0);

const hourDraws = ({ draws }: Way, factors: Float64Array | null): Float64Array =>
  Float64Array.from(draws, (curve, d) => (curve?.intensityFor(HOUR) ?? NaN) * (factors?.[d] ?? 1));

function knownSpread(draws: Float64Array): Spread | null {
  const spread = spreadOf(draws);
  return Number.isNaN(spread.median) ? null : spread;
}

/** Each way counts alike, however many draws it has: each is thinned or repeated to the same number. */
function pooled(ways: readonly Way[], factors: Float64Array | null): Spread | null {
  if (ways.length === 0) return null;
  const columns = ways.map((way) => hourDraws(way, factors).filter((value) => !Number.isNaN(value)));
  const most = Math.max(...columns.map((column) => column.length));
  return knownSpread(
    Float64Array.from({ length: most * ways.length }, (_, d) => {
      const column = columns[d % ways.length]!;
      return column[Math.floor(d / ways.length) % column.length]!;
    }),
  );
}

function chanceOf(way: Way, claim: number, factors: Float64Array): number {
  const draws = hourDraws(way, factors).filter((value) => !Number.isNaN(value));
  return draws.filter((value) => value >= claim).length / draws.length;
}

/** Critical intensity lies above the second threshold, by up to so much (our rule; see `disagreementsOf`). */
const MOST_ABOVE = 1.12;

/**
 * What does not fit together. Critical power lay 12 W above the maximal lactate steady state, limits of agreement −19 to
 * 44 W (Micheli 2025, PeerJ 13:e19060, abstract).
 */
function disagreementsOf(ways: readonly HourWay[], lt2: number | null): string[] {
  const critical = ways.find((way) => way.id === 'critical-power')?.parameters[0]?.value;
  const found: string[] = [];
  if (critical !== undefined && lt2 !== null && (critical < lt2 || critical > MOST_ABOVE * lt2)) {
    const side = critical < lt2 ? 'below' : `${formatNumber(100 * (critical / lt2 - 1), 0)} % above`;
    found.push(
      `The critical intensity lies ${side} the second threshold; usual is 0 to 12 % above. The threshold method, the day, ` +
        'or whether the efforts were the best possible is in doubt.',
    );
  }
  const counting = ways.filter((way) => way.counts && way.hour !== null);
  const lowest = counting.toSorted((a, b) => a.hour!.high - b.hour!.high)[0];
  const highest = counting.toSorted((a, b) => b.hour!.low - a.hour!.low)[0];
  if (lowest && highest && lowest.hour!.high < highest.hour!.low)
    found.push(
      `${lowest.name} and ${highest.name} do not meet within their errors: an effort of 20 to 40 min would decide.`,
    );
  return found;
}
