import { answerMark, levelMark, type Mark, ON_LACTATE, scene } from '../construction.ts';
import type { Curve } from '../curves/curve.ts';
import { intensityText, lactateText, singular } from '../refusal.ts';
import type { Readings } from '../stepTest.ts';
import { give, refuse } from './answer.ts';
import { notCompiled } from './estimators/notCompiled.ts';
import type { Method, Situation } from './method.ts';

/** Lactate before the first stage must be at least this many times the minimum (our rule, after the review cited). */
const RAISED = 2;
/** Stages that must lie on either side of the minimum. */
const EACH_SIDE = 2;

/** Where the parabola is lowest. */
const bottom = (curve: Curve): number => curve.lowest();

/** Whether enough stages lie below and above x for a minimum there to be the athlete's. */
function isInside(x: number, stages: Float64Array): boolean {
  return stages[EACH_SIDE - 1]! <= x && stages[stages.length - EACH_SIDE]! >= x;
}

/** The stage with the lowest reading and the stages beside it, as a sentence. */
function rawMinimum({ x, y, axis }: Readings): string {
  const lowest = y.indexOf(Math.min(...y));
  const beside = [lowest - 1, lowest + 1].filter((i) => i >= 0 && i < y.length);
  const said = (i: number) => `${lactateText(y[i]!)} at ${intensityText(x[i]!, axis)}`;
  return `Lowest reading: ${said(lowest)}; beside it ${beside.map(said).join(' and ')}.`;
}

/**
 * Lactate minimum: the lowest point of a parabola through the rising stages that follow sprints and a rest.
 *
 * Source    Tegtbur, Busse & Braumann 1993 for the test; a parabola, eight minutes of rest and the dependence on the
 *           start are common practice by a review of 2017 (PMC5463055)
 */
export const lactateMinimum: Method = {
  id: 'lactate-minimum',
  name: 'Lactate minimum',
  claim: 'MLSS',
  meaning: 'Where lactate, raised by sprints before the test, stops falling and begins to rise again.',
  source: 'Tegtbur, Busse & Braumann 1993, Med Sci Sports Exerc 25:620–627 (through a review, PMC5463055)',
  protocol: 'lactate-minimum',
  curve: 'quadratic',
  anyCurve: false,
  curves: ['quadratic', 'cubic', 'spline'],
  minPoints: 5,
  maximal: false,
  discrete: false,
  alsoNeeds: ['sprints and a rest before the first stage, with the lactate after that rest'],
  bias: 'Follows the intensity it starts at: simulated, starts at 60, 70 and 80 % of the steady state put it at 73, 81 and 85 %.',
  shorterStages: 'little',
  refusals: ['E_NO_HYPERLACT', 'E_NO_MIN', 'E_EDGE', 'E_SINGULAR'],
  refuses: ({ lactateBefore }) =>
    lactateBefore !== null
      ? null
      : {
          code: 'E_NO_HYPERLACT',
          reason:
            'It needs the lactate after the sprints and the rest, just before the first stage; the table holds none.',
        },
  prepare: (readings) =>
    notCompiled((_y, curve, answer) => {
      const x = bottom(curve!);
      const atEdge = x === curve!.lo || x === curve!.hi;
      if (!atEdge && !(curve!.curvature(x) > 0)) return refuse(answer, 'E_NO_MIN');
      // A parabola that bends down has its lowest point at an end.
      if (atEdge && curve!.curvature((curve!.lo + curve!.hi) / 2) <= 0) return refuse(answer, 'E_NO_MIN');
      if (atEdge || !isInside(x, readings.x)) return refuse(answer, 'E_EDGE');
      const lactate = curve!.at(x);
      if (!(readings.lactateBefore! >= RAISED * lactate)) return refuse(answer, 'E_NO_HYPERLACT');
      give(answer, x, lactate);
    }),
  explain: (code, { readings, curve }) => {
    if (code === 'E_NO_MIN')
      return 'Lactate does not fall and rise again: the parabola through the readings has no lowest point.';
    if (code === 'E_EDGE') {
      return `The lowest point does not have ${EACH_SIDE} stages on either side: it is set by where the stages begin or end.`;
    }
    if (code === 'E_NO_HYPERLACT') {
      return `Lactate before the first stage (${lactateText(readings.lactateBefore!)}) is less than ${RAISED} times the minimum (${lactateText(curve!.at(bottom(curve!)))}): the sprints did not raise it enough.`;
    }
    return singular(readings.x.length);
  },
  warnings: (_answer, { readings }) => [
    `It depends strongly on the intensity of the first stage (${intensityText(readings.x[0]!, readings.axis)}): compare only tests that start alike.`,
    rawMinimum(readings),
  ],
  construct: (answer, situation) => ({
    axes: ON_LACTATE,
    marks: [...scene(situation), ...beforeMark(situation), ...answerMark(answer)],
    caption:
      'Lactate falls from where the sprints raised it, then rises; the answer is the lowest point of the curve.',
  }),
};

const beforeMark = ({ readings: { lactateBefore } }: Situation): Mark[] =>
  lactateBefore === null ? [] : [levelMark(lactateBefore, 'before the first stage')];
