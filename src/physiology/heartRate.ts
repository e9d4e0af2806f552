import { completedShare, plannedMinutes } from './readings.ts';
import type { StepTest } from './stepTest.ts';

/** Heart rate of the completed stages, ascending in intensity. */
export interface HeartRates {
  /** W or km/h. */
  x: number[];
  /** bpm. */
  bpm: number[];
}

/**
 * Heart rates of the completed stages; several at one intensity give their mean. A stage that was cut short is
 * left out: heart rate lags behind by half a minute and more.
 */
export function heartRatesOf(test: StepTest): HeartRates {
  const planned = plannedMinutes(test);
  const sums = new Map<number, { sum: number; count: number }>();
  for (const stage of test.stages) {
    if (stage.heartRate === null || completedShare(stage, planned) < 1) continue;
    const entry = sums.get(stage.intensity) ?? { sum: 0, count: 0 };
    sums.set(stage.intensity, { sum: entry.sum + stage.heartRate, count: entry.count + 1 });
  }
  const x = [...sums.keys()].sort((a, b) => a - b);
  return { x, bpm: x.map((key) => sums.get(key)!.sum / sums.get(key)!.count) };
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
