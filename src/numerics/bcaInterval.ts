import type { CoverageInterval } from './coverage.ts';
import { normalCdf, normalQuantile } from './normal.ts';
import { quantiles } from './quantiles.ts';

/** An interval with the two corrections that shifted its ends. */
export interface BcaInterval extends CoverageInterval {
  /** z₀: how far the median of the replicates lies from the estimate, in standard normal units. */
  biasCorrection: number;
  /** a: how fast the standard error changes with the value. */
  acceleration: number;
}

/**
 * Bias-corrected and accelerated bootstrap interval.
 *
 * Model     quantiles of the replicates at Φ(z₀ + (z₀ + z)/(1 − a(z₀ + z))), z the normal quantiles of the share
 * Shape     `leaveOneOut` holds the estimate without each of the readings
 * Missing   NaN replicates are left out, ±∞ takes part; the ends are NaN when all replicates lie on one side of the
 *           estimate, and when leaving readings out changes nothing
 * Accuracy  Efron's law-school data by a second program (tests/numerics/bcaInterval.test.ts)
 * Source    Efron 1987, J Am Stat Assoc 82:171–185 (from memory)
 */
export function bcaInterval(
  replicates: ArrayLike<number>,
  { estimate, leaveOneOut, share }: { estimate: number; leaveOneOut: ArrayLike<number>; share: number },
): BcaInterval {
  const biasCorrection = normalQuantile(shareBelow(replicates, estimate));
  const acceleration = accelerationOf(leaveOneOut);
  const levels = [(1 - share) / 2, (1 + share) / 2].map((p) => {
    const z = biasCorrection + normalQuantile(p);
    return normalCdf(biasCorrection + z / (1 - acceleration * z));
  });
  const usable = Number.isFinite(biasCorrection) && Number.isFinite(acceleration);
  const [low, high] = usable ? quantiles(replicates, levels).values : [Number.NaN, Number.NaN];
  return { low: low!, high: high!, biasCorrection, acceleration };
}

function shareBelow(replicates: ArrayLike<number>, estimate: number): number {
  let count = 0;
  let below = 0;
  for (let i = 0; i < replicates.length; i++) {
    if (Number.isNaN(replicates[i])) continue;
    count++;
    if (replicates[i]! < estimate) below++;
  }
  return below / count;
}

/** Σd³/(6(Σd²)^1.5), d the mean of the leave-one-out estimates less each of them. */
function accelerationOf(leaveOneOut: ArrayLike<number>): number {
  let mean = 0;
  for (let i = 0; i < leaveOneOut.length; i++) mean += leaveOneOut[i]! / leaveOneOut.length;
  let squares = 0;
  let cubes = 0;
  for (let i = 0; i < leaveOneOut.length; i++) {
    const gap = mean - leaveOneOut[i]!;
    squares += gap ** 2;
    cubes += gap ** 3;
  }
  return cubes / (6 * squares ** 1.5);
}
