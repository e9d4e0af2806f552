import type { Axis, Sport } from '../../base/units.ts';

/**
 * How best efforts were done: over a set time or distance as hard as possible, or at a set intensity as long as
 * possible. It decides what carries the error: the intensity of a time trial, the time to exhaustion.
 */
export type EffortKind = 'time-trial' | 'exhaustion';

/** The best that an athlete did over one duration. */
export interface BestEffort {
  /** 0-based row in the table the reader saw. */
  row: number;
  seconds: number;
  /** Mean intensity: W, or km/h. */
  intensity: number;
}

/** The best efforts of one athlete in one sport, on one axis. */
export interface BestEfforts {
  sport: Sport;
  axis: Axis;
  kind: EffortKind;
  /** Shortest first. */
  efforts: BestEffort[];
  notes: string[];
}

/** Best efforts as the fits take them: one duration, s, and one intensity, W or km/h, for each, shortest first. */
export interface EffortPoints {
  kind: EffortKind;
  seconds: Float64Array;
  intensity: Float64Array;
}

/** The efforts as columns: s, and W or km/h. */
export const pointsOf = ({ kind, efforts }: BestEfforts): EffortPoints => ({
  kind,
  seconds: Float64Array.from(efforts, (effort) => effort.seconds),
  intensity: Float64Array.from(efforts, (effort) => effort.intensity),
});

/**
 * Size of the error of one best effort: standard deviation of the logarithm of a time to exhaustion, and of a time
 * trial's intensity as a share of it.
 *
 * Source    times to exhaustion repeat to 5–9 % at the maximal lactate steady state (Pallarés 2020, Appl Physiol Nutr
 *           Metab, abstract) and worse when shorter; the sizes are our rule
 */
export const EFFORT_ERROR: Record<EffortKind, number> = { 'time-trial': 0.02, exhaustion: 0.12 };
