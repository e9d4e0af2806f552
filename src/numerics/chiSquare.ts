import { upperGamma } from './gamma.ts';

/**
 * Chance that a chi-square variable with `df` degrees of freedom exceeds x.
 *
 * @example
 * chiSquareTail(3.841458820694124, 1) // 0.05
 */
export const chiSquareTail = (x: number, df: number): number => (x <= 0 ? 1 : upperGamma(df / 2, x / 2));
