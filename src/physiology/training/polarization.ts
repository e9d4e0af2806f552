/** Shares of training time below LT1, between the thresholds, and above LT2; they add up to 1. */
export interface ZoneShares {
  easy: number;
  threshold: number;
  hard: number;
}

/** How training is spread over the three zones. */
export type TrainingPattern = 'polarized' | 'pyramidal' | 'threshold' | 'none';

/** Stands for an empty middle zone, taken from the easy one (from memory). */
const EMPTY_MIDDLE = 0.01;
/** Index above which a distribution is called polarized. */
export const POLARIZED_ABOVE = 2;
/** Share between the thresholds from which training is called threshold work (Casado 2023, abstract; size our rule). */
const MUCH_THRESHOLD = 0.35;

/**
 * Polarization index of a training distribution; NaN where it is not defined: more hard than easy training.
 *
 * Model     log10(easy/threshold·hard·100) with shares of 1; without any threshold work 1 % is moved there from the hard
 *           part; without any hard work it is 0
 * Shape     shares from 0 on that add up to 1
 * Source    Treff 2019, Front Physiol 10:707; what it does with empty zones is from memory
 *
 * @example
 * polarizationIndex({ easy: 0.8, threshold: 0.05, hard: 0.15 }) // 2.3802
 */
export function polarizationIndex({ easy, threshold, hard }: ZoneShares): number {
  if (hard > easy) return NaN;
  if (hard === 0) return 0;
  if (threshold > 0) return Math.log10((easy / threshold) * hard * 100);
  return hard > EMPTY_MIDDLE ? Math.log10((easy / EMPTY_MIDDLE) * (hard - EMPTY_MIDDLE) * 100) : 0;
}

/**
 * What a distribution is called. Polarized: index above 2 and easy > hard > threshold. Pyramidal: easy > threshold > hard.
 * Threshold: more than 35 % between the thresholds; that goes before pyramidal.
 *
 * @example
 * patternOf({ easy: 0.78, threshold: 0.14, hard: 0.08 }) // 'pyramidal'
 */
export function patternOf(shares: ZoneShares): TrainingPattern {
  const { easy, threshold, hard } = shares;
  if (threshold > MUCH_THRESHOLD) return 'threshold';
  if (easy > hard && hard > threshold && polarizationIndex(shares) > POLARIZED_ABOVE) return 'polarized';
  return easy > threshold && threshold > hard ? 'pyramidal' : 'none';
}
