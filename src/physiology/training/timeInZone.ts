import { type Spread, spreadOf } from '../../numerics/quantiles.ts';
import { type HeartRates, heartRateAt } from '../heartRate.ts';
import type { SamplingResult } from '../samplingTypes.ts';
import { drawsOf, thresholdDraws, thresholdIn } from '../thresholdDraws.ts';
import { patternOf, polarizationIndex, type TrainingPattern, type ZoneShares } from './polarization.ts';

/** What a session was meant to be. */
export type Goal = 'easy' | 'threshold' | 'hard';

/** A stretch of training at one intensity. */
export interface TrainingPiece {
  /** 0-based row in the table the reader saw. */
  row: number;
  /** Name of the session that it belongs to; null when nobody says. */
  session: string | null;
  minutes: number;
  /** W or km/h; null when only heart rate was recorded. */
  intensity: number | null;
  /** bpm. */
  heartRate: number | null;
  goal: Goal | null;
}

/** Draws of both thresholds. */
interface ZoneThresholds {
  /** W or km/h on the scale of the device that training is recorded with. */
  lt1: Float64Array;
  lt2: Float64Array;
  /** Heart rate at them, bpm, ±∞ beyond what the test measured; null without heart rate. */
  heartRate: { lt1: Float64Array; lt2: Float64Array } | null;
}

/**
 * Draws of two chosen methods for sorting training; heart rate is read at nominal intensities, where it was measured.
 *
 * Throws    InputError when the draws were made without one of the methods
 */
export function zoneThresholdsOf(
  result: SamplingResult,
  { lt1, lt2, heartRates }: { lt1: string; lt2: string; heartRates?: HeartRates },
): ZoneThresholds {
  const bpm = (id: string) => {
    const draws = drawsOf(result, id);
    return Float64Array.from(draws.x, (_, d) => heartRateOrBeyond(heartRates!, thresholdIn(draws, d)));
  };
  const measured = heartRates !== undefined && heartRates.x.length > 1;
  return {
    lt1: thresholdDraws(result, lt1),
    lt2: thresholdDraws(result, lt2),
    heartRate: measured ? { lt1: bpm(lt1), lt2: bpm(lt2) } : null,
  };
}

/** Heart rate at an intensity; beyond the completed stages it is beyond all that they showed. */
function heartRateOrBeyond(rates: HeartRates, x: number): number {
  if (Number.isNaN(x)) return NaN;
  return heartRateAt(rates, x) ?? (x < rates.x[0]! ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY);
}

/** Quantities with their 95 % ranges over the draws. */
export interface TimeInZone {
  /** Minutes counted, and those that could not be: without heart rate of the test, or nothing measured. */
  minutes: number;
  uncounted: number;
  easy: Spread;
  threshold: Spread;
  hard: Spread;
  /** Minutes above LT2 in sessions that were not meant to be hard; null when no session says what it was meant to be. */
  harderThanMeant: Spread | null;
  /** Null when most draws do not define it. */
  index: Spread | null;
  /** Share of draws by pattern. */
  patterns: Record<TrainingPattern, number>;
  /** Draws that placed both thresholds. */
  draws: number;
}

/**
 * Time in three zones, and the polarization index, with what the error of the thresholds makes of them.
 *
 * Model     every draw of the two thresholds sorts the same pieces; intensity decides where it was recorded, heart rate
 *           otherwise, by the heart rates of the test at the drawn thresholds
 * Missing   pieces with neither are counted apart; draws in which a threshold has no answer are left out
 * Departs   heart rate lags behind intensity, so that short hard pieces look easier by it: time in zone by heart rate, by
 *           intensity and by the goal of sessions differ (Casado 2023, Int J Environ Res Public Health 20:3782, abstract)
 * Source    three zones: Seiler & Kjerland 2006, Scand J Med Sci Sports 16:49–56 (from memory)
 */
export function timeInZone(
  pieces: readonly TrainingPiece[],
  { lt1, lt2, heartRate }: ZoneThresholds,
): TimeInZone | null {
  const counted = pieces.filter(
    (piece) => piece.intensity !== null || (heartRate !== null && piece.heartRate !== null),
  );
  const minutes = sumOf(counted);
  if (minutes === 0) return null;
  const unmeant = piecesNotMeantHard(counted);
  const shares: ZoneShares[] = [];
  const harder: number[] = [];
  for (let d = 0; d < lt1.length; d++) {
    if (Number.isNaN(lt1[d]!) || Number.isNaN(lt2[d]!)) continue;
    const edges: Edges = {
      intensity: [lt1[d]!, lt2[d]!],
      heartRate: heartRate ? [heartRate.lt1[d]!, heartRate.lt2[d]!] : null,
    };
    shares.push(sharesOf(counted, minutes, edges));
    if (unmeant) harder.push(sharesOf(unmeant, 1, edges).hard);
  }
  if (shares.length === 0) return null;
  return {
    minutes,
    uncounted: sumOf(pieces) - minutes,
    harderThanMeant: unmeant && spreadOf(harder),
    ...summaryOf(shares),
  };
}

/** Pieces of the sessions that were meant to be something else than hard; null when no session says. */
function piecesNotMeantHard(pieces: readonly TrainingPiece[]): TrainingPiece[] | null {
  const goals = goalsOf(pieces);
  if (goals.size === 0) return null;
  return pieces.filter((piece) => (goals.get(sessionOf(piece)) ?? 'hard') !== 'hard');
}

/** Both thresholds in one draw. */
interface Edges {
  intensity: readonly [number, number];
  heartRate: readonly [number, number] | null;
}

const sumOf = (pieces: readonly TrainingPiece[]) => pieces.reduce((sum, piece) => sum + piece.minutes, 0);

function sharesOf(pieces: readonly TrainingPiece[], minutes: number, edges: Edges): ZoneShares {
  const sums: ZoneShares = { easy: 0, threshold: 0, hard: 0 };
  for (const { intensity, heartRate, minutes: length } of pieces) {
    const [low, high] = intensity === null ? edges.heartRate! : edges.intensity;
    const at = (intensity ?? heartRate)!;
    if (at < low) sums.easy += length / minutes;
    else if (at > high) sums.hard += length / minutes;
    else sums.threshold += length / minutes;
  }
  return sums;
}

function summaryOf(shares: readonly ZoneShares[]) {
  const patterns: Record<TrainingPattern, number> = { polarized: 0, pyramidal: 0, threshold: 0, none: 0 };
  for (const one of shares) patterns[patternOf(one)] += 1 / shares.length;
  const indices = shares.map(polarizationIndex);
  const defined = indices.filter((index) => !Number.isNaN(index)).length;
  return {
    easy: spreadOf(shares.map((one) => one.easy)),
    threshold: spreadOf(shares.map((one) => one.threshold)),
    hard: spreadOf(shares.map((one) => one.hard)),
    index: defined > shares.length / 2 ? spreadOf(indices) : null,
    patterns,
    draws: shares.length,
  };
}

/**
 * Share of sessions by what they were meant to be, the session-goal way; null unless every session says it once.
 *
 * Source    Seiler & Kjerland 2006, Scand J Med Sci Sports 16:49–56 (from memory)
 */
export function sharesByGoal(pieces: readonly TrainingPiece[]): ZoneShares | null {
  const goals = goalsOf(pieces);
  if (goals.size === 0 || goals.size < new Set(pieces.map(sessionOf)).size) return null;
  const share = (goal: Goal) => [...goals.values()].filter((one) => one === goal).length / goals.size;
  return { easy: share('easy'), threshold: share('threshold'), hard: share('hard') };
}

/** A piece without a session is one of its own. */
const sessionOf = ({ session, row }: TrainingPiece): string => session ?? `row ${row}`;

const goalsOf = (pieces: readonly TrainingPiece[]): Map<string, Goal> =>
  new Map(pieces.flatMap((piece) => (piece.goal ? [[sessionOf(piece), piece.goal] as const] : [])));
