import { answerMark, ON_LACTATE, scene } from '../construction.ts';
import { notConvex, singular } from '../refusal.ts';
import { SecondDerivative } from './estimators/bends.ts';
import type { Method } from './method.ts';

/**
 * Second-derivative maximum: the stage at which the smoothed curve bends most.
 *
 * Departs   the second derivative of a smoothing spline is straight between stages and 0 at both ends, so that its
 *           maximum is at a stage; Newell et al. smooth by functional data analysis
 */
export const secondDerivative: Method = {
  id: 'second-derivative',
  name: 'Second derivative',
  claim: 'LT2',
  meaning: 'The stage at which lactate begins to rise faster most abruptly.',
  source:
    'Newell et al. 2006, Comput Biol Med 36:262–275 (abstract); on differences of readings Newell et al. 2005 (abstract)',
  protocol: 'step',
  curve: 'spline',
  anyCurve: false,
  minPoints: 7,
  maximal: true,
  discrete: true,
  bias: 'One of the inner stages, most often one of the last: it depends on where the test ended, and on the smoothing.',
  shorterStages: 'unknown',
  refusals: ['E_NOT_CONVEX', 'E_EDGE', 'E_SINGULAR'],
  prepare: ({ x }) => new SecondDerivative(x),
  explain: (code, { readings }) => {
    if (code === 'E_EDGE')
      return 'The curve bends most at the last stage that has one on either side: where the test ended set it, not the athlete.';
    return code === 'E_NOT_CONVEX' ? notConvex() : singular(readings.x.length);
  },
  warnings: () => ['The answer is one of the stages: read it as that stage, give or take half a step.'],
  construct: (answer, situation) => ({
    axes: ON_LACTATE,
    marks: [...scene(situation), ...answerMark(answer)],
    caption: 'A smooth curve through the readings; the answer is the stage at which it bends most.',
  }),
};
