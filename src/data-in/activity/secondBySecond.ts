import type { Activity } from './activity.ts';

/** A sample stands for at most as many seconds: devices that save room leave out what does not change (our rule). */
const LONGEST_HOLD = 10;

/**
 * Values at each whole second from the start: the latest sample's, held for ten seconds at most. Missing in gaps, in
 * pauses and where nothing was measured.
 */
export function secondBySecond(activity: Activity, values: Float64Array): Float64Array {
  const { seconds, pauses } = activity;
  const even = new Float64Array(Math.floor(seconds.at(-1)!) + 1).fill(NaN);
  for (let i = 0; i < seconds.length; i++) {
    const next = seconds[i + 1] ?? seconds[i]! + 1;
    // Across a gap a sample stands for its own second alone.
    const until = next - seconds[i]! > LONGEST_HOLD ? seconds[i]! + 1 : next;
    for (let t = Math.ceil(seconds[i]!); t < until && t < even.length; t++) even[t] = values[i]!;
  }
  for (const { start, end } of pauses) even.fill(NaN, Math.ceil(start + 1e-9), Math.ceil(end));
  return even;
}
