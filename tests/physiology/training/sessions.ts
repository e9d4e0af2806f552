import type { RepReading, Session, SessionContext, Sign } from '../../../src/physiology/training/session.ts';
import type { SecondThreshold } from '../../../src/physiology/training/sessionLevel.ts';

/** Sessions and thresholds for tests, typed in few words. */
export interface RepSpec {
  at?: number | null;
  lactate?: number | null;
  minute?: number;
  minutes?: number;
  heartRate?: number | null;
  rpe?: number | null;
  signs?: Sign[];
}

export const sessionOf = (...reps: RepSpec[]): Session => ({
  sport: 'cycling',
  axis: 'power',
  exertionScale: '6-20',
  notes: [],
  reps: reps.map(({ at = 280, minutes = 8, minute = minutes, signs = [], ...measured }, i) => {
    const { lactate = null, heartRate = null, rpe = null } = measured;
    const reading: RepReading = { row: i, minute, lactate, heartRate, rpe };
    return { number: i + 1, intensity: at, minutes, signs, readings: [reading] };
  }),
});

export const CONTEXT: SessionContext = { restMinutes: 2, rest: 'active', reserve: null };

/** A threshold at 280 W, evenly spread by 10 W either way, 2.5 mmol/L in stages of 4 min: a level of 3.75 when held. */
export const THRESHOLD: SecondThreshold = {
  axis: 'power',
  draws: Float64Array.from({ length: 401 }, (_, i) => 270 + i / 20),
  reversed: false,
  stepLactate: 2.5,
  stageMinutes: 4,
  steadyLactate: null,
  heartRates: { x: [200, 250, 300], bpm: [140, 155, 170] },
};
