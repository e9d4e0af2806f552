import { type SamplerOptions, sampleThresholds } from './samplingError.ts';
import type { Interval } from './samplingTypes.ts';
import type { Readings } from './stepTest.ts';

/** What one more sample at a stage would do to one method's 95 % interval. */
export interface RepeatGain {
  method: string;
  /** Width of the interval as the test stands, W or km/h; null when an end lies beyond the tested range. */
  width: number | null;
  /** Width with a second sample at each reading, over the width as it stands; null where either is unknown. */
  ratios: (number | null)[];
  /** The reading whose repeat narrows the interval most; null when none does by more than the draws' own error. */
  best: number | null;
}

/**
 * Which single repeat reading would narrow each interval most.
 *
 * Model     the repeat is taken to read what the first sample read, so that only the errors shrink: noise, rounding and
 *           contamination are averaged over one sample more, and the point weighs more in a fit
 * Random    every case uses the same draws, so that ratios carry little of their error
 * Missing   the error that a test shares (gain, offset, scale of the device) is not narrowed by any repeat
 * Cost      one run of draws for each reading and one more
 */
export function repeatGains(readings: Readings, options: SamplerOptions & { draws: number }): RepeatGain[] {
  const base = sampleThresholds(readings, options).methods;
  const repeated = Array.from(
    readings.y,
    (_, at) => sampleThresholds(withRepeat(readings, at), options).methods,
  );
  return base.map(({ method, interval95, standardError }, m) => {
    const width = widthOf(interval95);
    const ratios = repeated.map((methods) => {
      const narrowed = widthOf(methods[m]!.interval95);
      return width === null || narrowed === null || width === 0 ? null : narrowed / width;
    });
    const error = Math.hypot(standardError?.low ?? 0, standardError?.high ?? 0);
    return { method, width, ratios, best: bestOf(ratios, width === null ? 0 : error / width) };
  });
}

const withRepeat = (readings: Readings, at: number): Readings => ({
  ...readings,
  count: readings.count.map((samples, i) => (i === at ? samples + 1 : samples)),
});

const widthOf = (interval: Interval | null): number | null =>
  interval?.low.value == null || interval.high.value === null
    ? null
    : interval.high.value - interval.low.value;

function bestOf(ratios: (number | null)[], error: number): number | null {
  let best: number | null = null;
  for (const [i, ratio] of ratios.entries()) {
    if (ratio !== null && ratio < (best === null ? 1 - error : ratios[best]!)) best = i;
  }
  return best;
}
