import type { Random } from '../../numerics/random.ts';

/** How long an athlete's second threshold is held depends on how well trained the athlete is. */
export type TrainingLevel = 'moderate' | 'trained' | 'well-trained';

/** Median minutes at the second threshold. */
export const MINUTES_AT_LT2: Record<TrainingLevel, number> = {
  moderate: 37,
  trained: 50,
  'well-trained': 75,
};

/** Spread of those minutes as standard deviation of their logarithm, and of the local exponent of a power law. */
const SPREAD = { logMinutes: 0.35, exponent: { mean: 0.07, sd: 0.02, least: 0.03 } };

/** Durations that this way may be asked about, s (our rule). */
export const THRESHOLD_RANGE = { from: 1200, to: 5400 };

/** What one draw says: a power law through the threshold and the time that it is held. */
interface ThresholdEndurance {
  /** W or km/h. */
  lt2: number;
  /** Seconds that the threshold itself is held. */
  seconds: number;
  exponent: number;
}

/**
 * One draw of how long the second threshold, and what lies near it, is held.
 *
 * Model     the threshold is held for a log-normal time (standard deviation of the logarithm 0.35); near it intensity
 *           falls as time to the power −k, k normal 0.07 ± 0.02, at least 0.03
 * Source    37.7 ± 8.9 min cycling, 34.4 ± 5.4 running at the maximal lactate steady state of moderately trained men
 *           (Fontana 2009, Eur J Appl Physiol 107:187–192, abstract); 76 ± 14 min in trained cyclists (Pallarés 2020, Appl
 *           Physiol Nutr Metab, abstract); 79 ± 17 and 80 ± 25 min in well-trained runners (Hafen & Vehrs 2018, Sports
 *           6:154, from memory). Medians in between, spread and exponent are our rule
 */
export function drawEndurance(lt2: number, level: TrainingLevel, random: Random): ThresholdEndurance {
  const { mean, sd, least } = SPREAD.exponent;
  const minutes = MINUTES_AT_LT2[level] * Math.exp(SPREAD.logMinutes * random.normal());
  return { lt2, seconds: 60 * minutes, exponent: Math.max(least, mean + sd * random.normal()) };
}

/**
 * W or km/h that lasts so many seconds.
 *
 * @example
 * enduranceIntensity({ lt2: 300, seconds: 2220, exponent: 0.07 }, 3600) // 290.018
 */
export const enduranceIntensity = ({ lt2, seconds, exponent }: ThresholdEndurance, wanted: number): number =>
  lt2 * (seconds / wanted) ** exponent;

/**
 * Seconds that an intensity lasts.
 *
 * @example
 * enduranceSeconds({ lt2: 300, seconds: 3000, exponent: 0.07 }, 300) // 3000
 */
export const enduranceSeconds = (
  { lt2, seconds, exponent }: ThresholdEndurance,
  intensity: number,
): number => (lt2 > 0 ? seconds * (intensity / lt2) ** (-1 / exponent) : 0);

/** The middle of the draws as a curve to draw. */
export const middleEndurance = (lt2: number, level: TrainingLevel): ThresholdEndurance => ({
  lt2,
  seconds: 60 * MINUTES_AT_LT2[level],
  exponent: SPREAD.exponent.mean,
});
