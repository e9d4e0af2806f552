import { quantiles } from '../../numerics/quantiles.ts';
import { Random } from '../../numerics/random.ts';
import type { ErrorModel } from '../errorModel.ts';
import { repeatabilityOf } from '../readingDraws.ts';
import { LIMITS } from './sessionDecision.ts';
import {
  approached,
  drawHeldLevel,
  drawTimeCourse,
  lactateAfterRest,
  type SecondThreshold,
} from './sessionLevel.ts';

/** Readings at the end of a rep that mean: go easier, and stop for today. mmol/L. */
export interface ReadingLimits {
  ease: number;
  stop: number;
}

/**
 * Which reading at the end of a later rep makes it as likely as not that the rep was above the second threshold (ease),
 * and clearly above (stop): the review read backwards, by lactate alone.
 *
 * Model     in each draw the lactate whose level is just that of the second threshold, as the meter would show it; the
 *           two are the 50 % and the 80 % quantile
 * Units     min → mmol/L
 * Random    seeded; 6 normals a draw
 * Source    our rule
 */
export function readingLimits(
  threshold: SecondThreshold,
  { minutes, restMinutes }: { minutes: number; restMinutes: number },
  { error, draws = 2000, seed = 1 }: { error: ErrorModel; draws?: number; seed?: number },
): ReadingLimits {
  const random = new Random(seed);
  const shown = Float64Array.from({ length: draws }, () => {
    const held = drawHeldLevel(threshold, random);
    const course = drawTimeCourse(random);
    const share = approached(minutes, course);
    // A rep begins at lactate k·y + c when the one before ended at y; y is where start + (y − start)/share = held.
    const c = lactateAfterRest(0, restMinutes, 'active', course);
    const k = lactateAfterRest(1, restMinutes, 'active', course) - c;
    const lactate = (held - c * (1 - 1 / share)) / (k * (1 - 1 / share) + 1 / share);
    const meter = (1 + error.gain * random.normal()) * lactate + error.offset * random.normal();
    return meter + repeatabilityOf(lactate, error) * random.normal();
  });
  const [ease, stop] = quantiles(shown, [LIMITS.above, LIMITS.clear]).values;
  return { ease: ease!, stop: stop! };
}
