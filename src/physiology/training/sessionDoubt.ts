import type { ErrorModel } from '../errorModel.ts';
import { repeatabilityOf } from '../readingDraws.ts';
import type { Sample } from './sessionDraws.ts';

/** Differences of two readings up to this many standard deviations of one are the meter's: 2√2 (our rule). */
const FAR = 2 * Math.SQRT2;

/**
 * Readings far above the one before and the one after: lactate that rises and falls again while the work goes on is more
 * likely sweat or a first drop in the sample.
 */
export const standingOut = (samples: readonly Sample[], error: ErrorModel): Sample[] =>
  samples.filter(({ lactate, rep }, i) => {
    const [before, after] = [samples[i - 1], samples[i + 1]];
    if (!before || !after) return false;
    // A harder rep between easier ones is no doubt about its sample.
    const harder = (other: Sample) => (rep.intensity ?? 0) > 1.02 * (other.rep.intensity ?? 0);
    if (harder(before) || harder(after)) return false;
    return lactate - Math.max(before.lactate, after.lactate) > FAR * repeatabilityOf(lactate, error);
  });
