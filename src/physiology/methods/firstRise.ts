import { formatNumber } from '../../base/format.ts';
import { answerMark, levelMark, ON_LACTATE, scene } from '../construction.ts';
import { intensityText, lactateText } from '../refusal.ts';
import { give, refuse } from './answer.ts';
import { ROUNDING_SLACK } from './level.ts';
import type { Method } from './method.ts';

/** Rise that counts as one, mmol/L: about twice the error of a laboratory analyser (Bishop 1998, from memory). */
export const SUSTAINED_RISE = 0.4;

/** Whether lactate rises by more than the amount that counts, from one reading to another. */
export const isRise = (from: number, to: number): boolean => to - from > SUSTAINED_RISE + ROUNDING_SLACK;

/** Index of the first reading that all later ones exceed by more than the rise; -1 when there is none. */
function lastBeforeRise(y: Float64Array): number {
  let found = -1;
  let leastLater = y[y.length - 1]!;
  for (let i = y.length - 2; i >= 0; i--) {
    if (isRise(y[i]!, leastLater)) found = i;
    leastLater = Math.min(leastLater, y[i]!);
  }
  return found;
}

/**
 * First sustained rise: the first stage that all later readings exceed by more than 0.4 mmol/L.
 *
 * Departs   the rise must be more than 0.4, not 0.4 exactly, as in the modified Dmax method
 */
export const firstRise: Method = {
  id: 'first-rise',
  name: 'First rise',
  claim: 'LT1',
  meaning: `The hardest stage before lactate rises by more than ${formatNumber(SUSTAINED_RISE, 1)} mmol/L and stays up.`,
  source:
    'Farrell et al. 1979, Med Sci Sports 11:338–344; Ivy et al. 1980, J Appl Physiol 48:523–527; ' +
    'Zoladz et al. 1995, J Physiol 488:211–217 (from memory)',
  protocol: 'step',
  curve: null,
  anyCurve: false,
  minPoints: 4,
  maximal: false,
  discrete: true,
  bias: 'Moves in whole stages: uncertain by at least half a step; late with short stages; noise can set it off early.',
  shorterStages: 'higher',
  refusals: ['E_NO_RISE', 'E_ALREADY_ABOVE'],
  prepare:
    ({ x }) =>
    (y, _curve, answer) => {
      const stage = lastBeforeRise(y);
      if (stage < 0) refuse(answer, 'E_NO_RISE');
      else if (stage === 0) refuse(answer, 'E_ALREADY_ABOVE');
      else give(answer, x[stage]!, y[stage]!);
    },
  explain: (code, { readings }) =>
    code === 'E_ALREADY_ABOVE'
      ? `Lactate rises from the first stage on: the threshold lies at or below ${intensityText(readings.x[0]!, readings.axis)}, ` +
        'and no stage below it was tested.'
      : `No reading is followed only by readings more than ${lactateText(SUSTAINED_RISE)} above it: lactate shows no sustained rise.`,
  warnings: () => ['The answer is one of the stages: read it as that stage or anything up to the next.'],
  construct: (answer, situation) => ({
    axes: ON_LACTATE,
    marks: [
      ...scene(situation),
      ...(answer === null
        ? []
        : [levelMark(answer.lactate + SUSTAINED_RISE, 'all later readings lie above')]),
      ...answerMark(answer),
    ],
    caption: `The answer is the first stage that every later reading exceeds by more than ${formatNumber(SUSTAINED_RISE, 1)} mmol/L.`,
  }),
};
