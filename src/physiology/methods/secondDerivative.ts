import { answerMark, ON_LACTATE, scene } from '../construction.ts';
import { notConvex, singular } from '../refusal.ts';
import { give, refuse } from './answer.ts';
import type { Method } from './method.ts';

/** A bend below this share of the readings' size, over the whole range, is rounding: nothing bends there. */
const LEAST_BEND = 1e-9;

/** The bend of a curve that rises by the greatest reading within the range of intensity. */
function scaleOf(y: Float64Array, x: Float64Array): number {
  let greatest = 0;
  for (let i = 0; i < y.length; i++) greatest = Math.max(greatest, y[i]!);
  return greatest / (x[x.length - 1]! - x[0]!) ** 2;
}

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
  prepare: ({ x }) => {
    return (y, curve, answer) => {
      let most = LEAST_BEND * scaleOf(y, x);
      let best = -1;
      for (let i = 1; i < x.length - 1; i++) {
        const bend = curve!.curvature!(x[i]!);
        if (bend > most) {
          most = bend;
          best = i;
        }
      }
      if (best < 0) refuse(answer, 'E_NOT_CONVEX');
      else if (best === x.length - 2) refuse(answer, 'E_EDGE');
      else give(answer, x[best]!, curve!.at(x[best]!));
    };
  },
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
