import { type HeartRates, heartRateAt } from '../heartRate.ts';
import type { ExertionScale, Rep } from './session.ts';
import { meanHeartRate } from './sessionChances.ts';

/** How hard a session was on the athlete, by what needs no meter; null where it was not noted. */
export interface Strain {
  /** Rise of heart rate from the first to the last rep at the same minute and intensity, bpm and as a fraction. */
  heartRateRise: { bpm: number; share: number } | null;
  /** Heart rate above that of the step test at the same intensity, bpm. */
  heartRateExcess: number | null;
  /** Rating of the last rep that has one, and its rise since the first. */
  exertion: number | null;
  exertionRise: number | null;
}

/** Minutes of two reps that lie this near count as the same (our rule). */
const SAME_MINUTE = 1;

/** Strain of reps at one intensity. */
export function strainOf(reps: readonly Rep[], heartRates: HeartRates | null): Strain {
  const rated = reps.flatMap((rep) => rep.readings.flatMap(({ rpe }) => rpe ?? []));
  const rise = rated.length > 1 && reps.length > 1 ? rated.at(-1)! - rated[0]! : null;
  return {
    heartRateRise: heartRateRise(reps),
    heartRateExcess: heartRateExcess(reps, heartRates),
    exertion: rated.at(-1) ?? null,
    exertionRise: rise,
  };
}

const ratesOf = ({ readings, minutes }: Rep) =>
  readings.flatMap(({ minute, heartRate }) =>
    heartRate === null ? [] : [{ minute: minute ?? minutes, heartRate }],
  );

function heartRateRise(reps: readonly Rep[]): Strain['heartRateRise'] {
  const measured = reps.filter((rep) => ratesOf(rep).length > 0);
  const [first, last] = [measured[0], measured.at(-1)];
  if (!first || !last || first === last) return null;
  for (const late of ratesOf(last).toReversed()) {
    const early = ratesOf(first).findLast(({ minute }) => Math.abs(minute - late.minute) <= SAME_MINUTE);
    if (early) {
      const bpm = late.heartRate - early.heartRate;
      return { bpm, share: bpm / early.heartRate };
    }
  }
  return null;
}

function heartRateExcess(reps: readonly Rep[], heartRates: HeartRates | null): number | null {
  const rate = meanHeartRate(reps);
  const expected = reps.map((rep) =>
    rep.intensity === null || heartRates === null ? null : heartRateAt(heartRates, rep.intensity),
  );
  if (rate === null || expected.length === 0 || expected.includes(null)) return null;
  return rate - expected.reduce((sum: number, bpm) => sum + bpm!, 0) / expected.length;
}

/** How ratings are judged on each scale (common practice; the two scales side by side are our rule). */
export const EXERTION: Record<
  ExertionScale,
  { easy: number; from: number; to: number; high: number; rise: number; uncomfortable: number }
> = {
  '6-20': { easy: 12, from: 13, to: 15, high: 16, rise: 3, uncomfortable: 15 },
  CR10: { easy: 3, from: 4, to: 5, high: 6, rise: 2, uncomfortable: 5 },
};
