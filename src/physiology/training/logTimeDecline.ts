import { formatNumber } from '../../base/format.ts';
import { leastSquares } from '../../numerics/leastSquares.ts';
import type { EffortPoints } from './bestEfforts.ts';
import { type DurationModel, refuse, spanOf } from './durationModel.ts';
import { LONGEST_REACH } from './powerLaw.ts';

/** How long the maximal aerobic intensity itself is held, s. */
const AEROBIC_SECONDS = 420;
/** Losses per natural logarithm of time that people show, as a share of the maximal aerobic intensity. */
const USUAL_LOSS = { least: 0.04, most: 0.09 };

/**
 * Decline of the sustainable intensity with the logarithm of time, beyond 7 min.
 *
 * Model     intensity = maximal·(1 − loss·ln(seconds/420)), straight-line least squares, errors in proportion
 * Shape     seconds[n] from 420 on, intensity[n]; n >= 2
 * Units     s, W or km/h → W or km/h, and the loss as a share per natural logarithm of time
 * Source    Péronnet & Thibault 1989, J Appl Physiol 67:453–465 (from memory): losses of 4 (very enduring) to 9 %
 *
 * @example
 * fitLogTimeDecline([420, 420 * Math.E], [300, 282]).loss // 0.06
 */
export function fitLogTimeDecline(seconds: ArrayLike<number>, intensity: ArrayLike<number>) {
  const logs = Array.from(seconds, (time) => Math.log(time / AEROBIC_SECONDS));
  const weights = Array.from(intensity, (value) => value ** -2);
  const { coefficients, standardErrors } = leastSquares([logs.map(() => 1), logs], intensity, { weights });
  const [maximal, slope] = [coefficients[0]!, coefficients[1]!];
  return { maximal, maximalError: standardErrors[0]!, loss: -slope / maximal };
}

function fit({ seconds, intensity }: EffortPoints) {
  const long = Array.from(seconds.keys()).filter((i) => seconds[i]! >= AEROBIC_SECONDS);
  if (long.length < 2)
    return refuse(`It needs at least 2 efforts of 7 min or longer; there ${counted(long.length)}.`);
  const { maximal, maximalError, loss } = fitLogTimeDecline(
    long.map((i) => seconds[i]!),
    long.map((i) => intensity[i]!),
  );
  if (!(loss > 0 && maximal > 0))
    return refuse('The longer efforts were not the easier ones, so nothing can be carried on.');
  return {
    refused: null,
    curve: {
      intensityFor: (time: number) => maximal * (1 - loss * Math.log(time / AEROBIC_SECONDS)),
      secondsAt: (at: number) => AEROBIC_SECONDS * Math.exp((1 - at / maximal) / loss),
    },
    parameters: [
      { name: 'Held for 7 min', value: maximal, standardError: maximalError, unit: 'intensity' as const },
      { name: 'Loss', value: 100 * loss, standardError: NaN, unit: 'percent' as const },
    ],
    warnings: unusual(loss),
  };
}

const counted = (n: number) => (n === 0 ? 'are none' : 'is 1');

const unusual = (loss: number): string[] =>
  loss >= USUAL_LOSS.least && loss <= USUAL_LOSS.most
    ? []
    : [
        `A loss of ${formatNumber(100 * loss, 1)} % is outside the 4 to 9 % that athletes show: one of the efforts may ` +
          'not have been the best possible.',
      ];

/** Decline with the logarithm of time from 7 minutes on. */
export const LOG_TIME_DECLINE: DurationModel = {
  id: 'log-time-decline',
  name: 'Log-time decline',
  meaning: 'Beyond 7 min the share of maximal aerobic intensity falls evenly with the logarithm of time.',
  source: 'Péronnet & Thibault 1989, J Appl Physiol 67:453–465 (from memory)',
  range: (points) => ({ from: AEROBIC_SECONDS, to: LONGEST_REACH * spanOf(points)[1] }),
  fit,
};
