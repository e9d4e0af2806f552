import { formatNumber } from '../../base/format.ts';
import { answerMark, levelMark, ON_LACTATE, scene } from '../construction.ts';
import { intensityText, lactateText } from '../refusal.ts';
import { FirstRise, SUSTAINED_RISE } from './estimators/rises.ts';
import type { Method } from './method.ts';

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
  prepare: ({ x }) => new FirstRise(x),
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
