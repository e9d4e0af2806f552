import { leastSquares } from '../../numerics/leastSquares.ts';
import type { EffortPoints } from './bestEfforts.ts';
import { type DurationModel, refuse, spanOf } from './durationModel.ts';

/** Longest duration that a power law is asked about, as a multiple of the longest effort (our rule). */
export const LONGEST_REACH = 3;

/**
 * Power law from best efforts: intensity = scale·seconds^exponent.
 *
 * Model     straight line of the logarithms, least squares in the logarithm of intensity
 * Shape     seconds[n], intensity[n]; n >= 2
 * Units     s, W or km/h → W or km/h at 1 s, and the exponent, below 0 (Riegel's 1.06 is an exponent of −0.0566)
 * Accuracy  12 digits on numpy's polyfit (tests/physiology/training/durationModels.test.ts)
 * Source    Riegel 1981, Am Sci 69:285–290 (from memory); against critical power on long efforts: Drake, Finke & Ferguson
 *           2024, Eur J Appl Physiol 124:507–526 (abstract)
 *
 * @example
 * fitPowerLaw([100, 400], [400, 200]).exponent // -0.5
 */
export function fitPowerLaw(seconds: ArrayLike<number>, intensity: ArrayLike<number>) {
  const logs = Array.from(seconds, Math.log);
  const fit = leastSquares([logs.map(() => 1), logs], Array.from(intensity, Math.log));
  const [level, exponent] = [fit.coefficients[0]!, fit.coefficients[1]!];
  return {
    scale: Math.exp(level),
    exponent,
    exponentError: fit.standardErrors[1]!,
    residualSd: fit.residualSd,
  };
}

function fit(points: EffortPoints) {
  if (points.seconds.length < 2) return refuse('It needs at least 2 efforts of different length.');
  const { scale, exponent, exponentError } = fitPowerLaw(points.seconds, points.intensity);
  if (!(exponent < 0))
    return refuse('The longer efforts were not the easier ones, so nothing can be carried on.');
  return {
    refused: null,
    curve: {
      intensityFor: (seconds: number) => scale * seconds ** exponent,
      secondsAt: (intensity: number) => (intensity / scale) ** (1 / exponent),
    },
    parameters: [
      { name: 'Exponent', value: exponent, standardError: exponentError, unit: 'exponent' as const },
    ],
    warnings: [],
  };
}

/** Intensity as a power of time. */
export const POWER_LAW: DurationModel = {
  id: 'power-law',
  name: 'Power law',
  meaning: 'Each doubling of the time costs the same share of intensity.',
  source:
    'Riegel 1981, Am Sci 69:285–290 (from memory); Drake 2024, Eur J Appl Physiol 124:507–526 (abstract)',
  range: (points) => {
    const [from, longest] = spanOf(points);
    return { from, to: LONGEST_REACH * longest };
  },
  fit,
};
