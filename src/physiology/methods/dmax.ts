import { answerMark, chordMarks, ON_LACTATE, type Place, scene } from '../construction.ts';
import { notConvex, singular } from '../refusal.ts';
import type { CurveId } from '../stepTest.ts';
import { Dmax, FITTED, MEASURED } from './estimators/chord.ts';
import type { Method } from './method.ts';

type DmaxDetails = Pick<Method, 'id' | 'name' | 'source' | 'bias'> & { curve: CurveId };

function dmaxOn(details: DmaxDetails): Method {
  return {
    ...details,
    claim: 'LT2',
    meaning: 'The point of the curve farthest from the straight line between its two ends.',
    protocol: 'step',
    anyCurve: false,
    minPoints: 5,
    maximal: true,
    discrete: false,
    shorterStages: 'little',
    refusals: ['E_NOT_CONVEX', 'E_SINGULAR'],
    prepare: ({ x }, { ends }) => new Dmax(ends === 'fitted' ? FITTED : MEASURED, x),
    explain: (code, { readings }) => (code === 'E_NOT_CONVEX' ? notConvex() : singular(readings.x.length)),
    warnings: (_answer, { readings }) =>
      readings.toExhaustion
        ? []
        : ['Nothing says that the athlete went to exhaustion: this point moves with where the test ended.'],
    construct: (answer, situation) => {
      const { readings, curve, options } = situation;
      const { x, y } = readings;
      const last = x.length - 1;
      const fitted = options.ends === 'fitted' && curve?.status === 'ok';
      const end = (i: number): Place => [x[i]!, fitted ? curve.at(x[i]!) : y[i]!];
      return {
        axes: ON_LACTATE,
        marks: [...scene(situation), ...chordMarks(curve, end(0), end(last), answer), ...answerMark(answer)],
        caption:
          'The answer is where the curve lies farthest below the line between its ends: there it is as steep as that line.',
      };
    },
  };
}

/** Dmax on the polynomial of third degree, as it was published. */
export const dmax = dmaxOn({
  id: 'dmax',
  name: 'Dmax',
  curve: 'cubic',
  source: 'Cheng et al. 1992, Int J Sports Med 13:518–522 (from memory)',
  bias: 'Moves with the first and the last stage; never above 79 % of the tested range; calibration does not move it.',
});

/** The same rule on an exponential curve, which cannot bend back at its ends. */
export const dmaxExponential = dmaxOn({
  id: 'dmax-exponential',
  name: 'Exponential Dmax',
  curve: 'exponential',
  source:
    'After Cheng et al. 1992, Int J Sports Med 13:518–522, on the curve of Hughson et al. 1987, ' +
    'J Appl Physiol 62:1975–1981 (from memory)',
  bias: 'Moves with the first and the last stage; always in the upper half of the tested range; calibration does not move it.',
});
