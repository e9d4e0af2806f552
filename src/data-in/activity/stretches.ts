import type { Axis } from '../../base/units.ts';
import type { Activity, Span } from './activity.ts';
import { secondBySecond } from './secondBySecond.ts';

/** What a stretch of a recording comes to. */
export interface Stretch extends Span {
  /** Mean over the window at its end, W or km/h; null without values there. */
  intensity: number | null;
  /** Mean over its own window, bpm. */
  heartRate: number | null;
  /** Length without pauses, min. */
  minutes: number;
  /** What was left out of the means or makes them doubtful, in sentences. */
  notes: string[];
}

interface StretchOptions {
  axis: Axis;
  /** Length of the windows at the end, s (our rule: the last minute, and half of it for heart rate). */
  intensityWindow?: number;
  heartRateWindow?: number;
}

/** A value this many times the window's median is a spike (our rule). */
const SPIKE = 2.5;
/** Zeros are told from this share on, and gaps. */
const LEAST_TOLD = 0.05;

const meanOf = (values: Float64Array): number | null =>
  values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;

function medianOf(values: Float64Array): number {
  const sorted = values.slice().sort();
  return sorted[sorted.length >> 1] ?? NaN;
}

/** Seconds of a stretch in which the clock of the device ran. */
function runningSeconds({ start, end }: Span, pauses: readonly Span[]): number {
  const paused = pauses.reduce(
    (sum, pause) => sum + Math.max(0, Math.min(end, pause.end) - Math.max(start, pause.start)),
    0,
  );
  return end - start - paused;
}

interface Series {
  intensity: Float64Array;
  heartRate: Float64Array | null;
  cadence: Float64Array | null;
  /** 1 for each second in which the clock of the device stood still. */
  paused: Uint8Array;
}

const percent = (share: number) => `${Math.round(100 * share)} %`;

/**
 * Intensities of a window that count: without spikes, and without zeros while the cranks turned, for those are a sensor
 * that was lost. Other zeros are rolling or standing, which belongs to the mean.
 */
function countedIntensities(
  { intensity, cadence }: Series,
  window: readonly number[],
  notes: string[],
): Float64Array {
  const values = Float64Array.from(window, (second) => intensity[second]!);
  const known = values.filter((value) => !Number.isNaN(value));
  const median = medianOf(known);
  let [lost, spikes, zeros] = [0, 0, 0];
  const counted = values.filter((value, i) => {
    if (Number.isNaN(value)) return false;
    const isLost = value === 0 && (cadence?.[window[i]!] ?? 0) > 0;
    const isSpike = median > 0 && value > SPIKE * median;
    if (isLost) lost++;
    else if (isSpike) spikes++;
    else if (value === 0) zeros++;
    return !isLost && !isSpike;
  });
  const missing = window.length - known.length;
  if (missing > LEAST_TOLD * window.length)
    notes.push(`${percent(missing / window.length)} of the window was not recorded.`);
  if (lost > 0) notes.push(`${lost} s without a signal of intensity were left out.`);
  if (spikes > 0) notes.push(`${spikes} s with a value over ${SPIKE} times the usual one were left out.`);
  if (zeros > LEAST_TOLD * window.length) notes.push(`${zeros} s of the window were at zero and count.`);
  return counted;
}

/** The last seconds of a stretch in which the clock ran, as many as the window has. */
function windowOf({ start, end }: Span, length: number, paused: Uint8Array): number[] {
  const window: number[] = [];
  const last = Math.min(paused.length, Math.ceil(end)) - 1;
  for (let second = last; second >= Math.max(0, Math.ceil(start)) && window.length < length; second--)
    if (!paused[second]) window.push(second);
  return window;
}

function stretchOf(
  span: Span,
  series: Series,
  pauses: readonly Span[],
  options: Required<StretchOptions>,
): Stretch {
  const notes: string[] = [];
  const { intensityWindow, heartRateWindow } = options;
  const rates = windowOf(span, heartRateWindow, series.paused).map(
    (second) => series.heartRate?.[second] ?? NaN,
  );
  const seconds = runningSeconds(span, pauses);
  if (seconds < span.end - span.start)
    notes.push(`A pause of ${Math.round(span.end - span.start - seconds)} s is left out.`);
  if (seconds < intensityWindow) notes.push(`Shorter than the window of ${intensityWindow} s.`);
  const window = windowOf(span, intensityWindow, series.paused);
  return {
    start: span.start,
    end: span.end,
    intensity: meanOf(countedIntensities(series, window, notes)),
    heartRate: meanOf(Float64Array.from(rates).filter((rate) => !Number.isNaN(rate))),
    minutes: seconds / 60,
    notes,
  };
}

/** What an activity recorded of an axis; null for nothing. */
export const intensityOf = ({ power, speed }: Activity, axis: Axis): Float64Array | null =>
  axis === 'power' ? power : speed;

/** The axis that a recording is read on: power where there is any, but speed for running. */
export const usualAxis = ({ sport, power, speed }: Activity): Axis =>
  power && !(sport === 'running' && speed) ? 'power' : 'speed';

/**
 * Mean intensity and heart rate at the end of each stretch of a recording: its laps, detected steps, or spans that were
 * set by hand.
 *
 * Model     one value a second (`secondBySecond`); zeros with a turning crank and values over 2.5 times the window's median
 *           are left out, all other zeros count
 * Missing   a stretch without values has null, and says why
 */
export function stretchesOf(activity: Activity, spans: readonly Span[], options: StretchOptions): Stretch[] {
  const { axis, intensityWindow = 60, heartRateWindow = 30 } = options;
  const recorded = intensityOf(activity, axis) ?? new Float64Array(activity.seconds.length).fill(NaN);
  const intensity = secondBySecond(activity, recorded);
  const paused = new Uint8Array(intensity.length);
  for (const { start, end } of activity.pauses) paused.fill(1, Math.ceil(start + 1e-9), Math.ceil(end));
  const series: Series = {
    intensity,
    paused,
    heartRate: activity.heartRate && secondBySecond(activity, activity.heartRate),
    cadence: activity.cadence && secondBySecond(activity, activity.cadence),
  };
  const chosen = { axis, intensityWindow, heartRateWindow };
  return spans.map((span) => stretchOf(span, series, activity.pauses, chosen));
}
