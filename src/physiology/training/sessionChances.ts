import { normalCdf } from '../../numerics/normal.ts';
import { heartRateAt } from '../heartRate.ts';
import { meanIntensity, type Rep } from './session.ts';
import { EARLIEST_MINUTE, type SecondThreshold } from './sessionLevel.ts';

/** Chances of being above the second threshold, each by its own evidence; null where there is none. */
export interface Evidence {
  intensity: number | null;
  lactate: number | null;
  drift: number | null;
}

/** What the chance by intensity was read from. */
export type IntensityBasis = 'intensity' | 'heart rate';

/** Weights of the three, and how far a single chance is believed (our rule). */
const WEIGHTS = { lactate: 1, intensity: 1, drift: 0.5 } as const;
const BELIEVED = 0.03;
/** Difference of log-odds from which two pieces of evidence count as disagreeing (our rule). */
const DISAGREE = 3;

const logit = (p: number): number => Math.log(p / (1 - p));
const believed = (p: number): number => Math.min(1 - BELIEVED, Math.max(BELIEVED, p));

/**
 * One chance from up to three: the weighted mean of their log-odds. They are never multiplied, for they share errors.
 *
 * Model     weights lactate 1, intensity 1, drift 0.5; each chance kept within 0.03 and 0.97. Drift counts only when it
 *           speaks for above: well above the steady state lactate climbs in the first reps and then levels off, so that no
 *           drift proves nothing
 * Source    our rule
 *
 * @example
 * combined({ intensity: 0.5, lactate: 0.5, drift: null }) // 0.500
 * combined({ intensity: 0.9, lactate: 0.9, drift: 0.1 }) // 0.900
 */
export function combined({ intensity, lactate, drift }: Evidence): number | null {
  const parts = [
    { chance: intensity, weight: WEIGHTS.intensity },
    { chance: lactate, weight: WEIGHTS.lactate },
    { chance: drift !== null && drift > 0.5 ? drift : null, weight: WEIGHTS.drift },
  ];
  let [sum, weights] = [0, 0];
  for (const { chance, weight } of parts) {
    if (chance === null) continue;
    sum += weight * logit(believed(chance));
    weights += weight;
  }
  return weights === 0 ? null : 1 / (1 + Math.exp(-sum / weights));
}

/** Whether intensity and lactate say very different things. */
export const disagree = ({ intensity, lactate }: Evidence): boolean =>
  intensity !== null &&
  lactate !== null &&
  Math.abs(logit(believed(intensity)) - logit(believed(lactate))) > DISAGREE;

/** Spread of heart rate at one intensity, within a day and from day to day, bpm (from memory). */
const HEART_RATE_SD = Math.hypot(2.5, 4);

/**
 * Chance that reps were above the second threshold, by their mean intensity; by heart rate, as in the step test, where
 * no intensity is known. Null where neither tells.
 *
 * Missing   draws in which the method gave no answer are left out; beyond the tested range counts as beyond
 */
export function intensityChance(
  reps: readonly Rep[],
  { draws, heartRates }: SecondThreshold,
): { chance: number; basis: IntensityBasis } | null {
  const intensity = meanIntensity(reps);
  const known = draws.filter((x) => !Number.isNaN(x));
  if (known.length === 0) return null;
  if (intensity !== null) {
    const above = known.filter((x) => intensity > x).length;
    return { chance: above / known.length, basis: 'intensity' };
  }
  const rate = meanHeartRate(reps);
  if (rate === null || heartRates === null) return null;
  const rates = Array.from(known, (x) => heartRateAt(heartRates, x)).filter((bpm) => bpm !== null);
  if (rates.length < known.length / 2) return null;
  const chance = rates.reduce((sum, bpm) => sum + normalCdf((rate - bpm) / HEART_RATE_SD), 0) / rates.length;
  return { chance, basis: 'heart rate' };
}

/** Mean of the heart rates late enough in their rep to have settled; null without any. */
export function meanHeartRate(reps: readonly Rep[]): number | null {
  const rates = reps.flatMap((rep) =>
    rep.readings.flatMap(({ minute, heartRate }) =>
      heartRate === null || (minute ?? rep.minutes) < EARLIEST_MINUTE ? [] : [heartRate],
    ),
  );
  return rates.length === 0 ? null : rates.reduce((a, b) => a + b, 0) / rates.length;
}
