import { bracketedRoot } from '../../numerics/bracketedRoot.ts';
import { minimise } from '../../numerics/minimise.ts';
import { SUSTAINED_RISE } from '../methods/estimators/rises.ts';
import { type AthleteType, constantLoad } from '../training/simulatedAthlete.ts';

/** Minutes of work after which lactate has settled below the steady state. */
const SETTLED = 30;
/** The floor is flat: this share of the range is near enough to its lowest point. */
const FLOOR = 1e-4;

/**
 * The first threshold of a simulated athlete: the lowest intensity, above the one with the least lactate, at which
 * lactate after 30 min is higher than the least by a given rise.
 *
 * Units     W or km/h; rise mmol/L
 * Source    our rule, for the words of the first threshold: the hardest work without a net rise
 */
export function firstThresholdOf(type: AthleteType, steady: number, rise = SUSTAINED_RISE): number {
  const settled = (intensity: number) => constantLoad(type, intensity, [SETTLED])[0]!;
  const floor = minimise(settled, 0.2 * steady, steady, { tolerance: FLOOR * steady });
  return bracketedRoot((intensity) => settled(intensity) - floor.value - rise, floor.x, steady, {
    tolerance: 1e-7 * steady,
  });
}
