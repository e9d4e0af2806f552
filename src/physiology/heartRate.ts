import { completedStages, stageMeans } from './stageMeans.ts';
import type { StepTest } from './stepTest.ts';

/** Heart rate of the completed stages, ascending in intensity. */
export interface HeartRates {
  /** W or km/h. */
  x: number[];
  /** bpm. */
  bpm: number[];
}

/** Heart rates of the completed stages; several at one intensity give their mean. */
export function heartRatesOf(test: StepTest): HeartRates {
  const { x, y } = stageMeans(completedStages(test), (stage) => stage.heartRate);
  return { x, bpm: y };
}

/**
 * Heart rate at an intensity, by a straight line between the completed stages on either side; null outside
 * them, for nothing is extrapolated.
 *
 * Units     W or km/h → bpm
 *
 * @example
 * heartRateAt({ x: [200, 250], bpm: [140, 160] }, 225) // 150
 * heartRateAt({ x: [200, 250], bpm: [140, 160] }, 251) // null
 */
export const heartRateAt = ({ x, bpm }: HeartRates, intensity: number): number | null =>
  betweenNeighbours(x, bpm, intensity);

/** A value on straight lines between points of ascending x; null outside them. */
export function betweenNeighbours(x: readonly number[], y: readonly number[], at: number): number | null {
  const above = x.findIndex((value) => value >= at);
  if (above < 0) return null;
  if (x[above] === at) return y[above]!;
  if (above === 0) return null;
  const share = (at - x[above - 1]!) / (x[above]! - x[above - 1]!);
  return y[above - 1]! + share * (y[above]! - y[above - 1]!);
}
