import { answerMark, type Mark, ON_LACTATE, scene } from '../construction.ts';
import type { Curve } from '../curves/curve.ts';
import type { SegmentedCurve } from '../curves/segmentedCurve.ts';
import { notConvex, singular } from '../refusal.ts';
import { TurnPoint } from './estimators/bends.ts';
import type { Method } from './method.ts';

type Details = Pick<Method, 'id' | 'name' | 'claim' | 'meaning' | 'bias' | 'shorterStages'>;

/** The curve of these methods cannot be replaced, so it always is the three-segment line. */
const bend = (curve: Curve, index: 1 | 2): number => (curve as SegmentedCurve).breakpoints[index - 1]!;

/** Both bends of the line; none when it could not be fitted. */
function cornersOf(curve: Curve | null): Mark[] {
  if (curve?.status !== 'ok') return [];
  return ([1, 2] as const).map((index) => {
    const x = bend(curve, index);
    return { kind: 'point', at: [x, curve.at(x)], role: 'corner', label: `bend ${index}` };
  });
}

function turnPoint(index: 1 | 2, details: Details): Method {
  return {
    ...details,
    source:
      'Davis et al. 1983, Eur J Appl Physiol; Hofmann & Tschakert 2017, Front Physiol 8:337 (from memory)',
    protocol: 'step',
    curve: 'three-segment',
    anyCurve: false,
    minPoints: 7,
    maximal: true,
    discrete: false,
    refusals: ['E_NOT_CONVEX', 'E_SINGULAR'],
    prepare: () => new TurnPoint(index),
    explain: (code, { readings }) => (code === 'E_NOT_CONVEX' ? notConvex() : singular(readings.x.length)),
    warnings: ({ x }, { readings }) => {
      const beyond = readings.x.length - 1 - readings.x.findLastIndex((value) => value <= x);
      return beyond < 2 ? ['Only one reading lies beyond this bend: it rests on that reading.'] : [];
    },
    construct: (answer, situation) => ({
      axes: ON_LACTATE,
      marks: [...scene(situation), ...cornersOf(situation.curve), ...answerMark(answer)],
      caption: `Three straight lines that meet, each steeper than the one before; the answer is their ${index === 1 ? 'first' : 'second'} bend.`,
    }),
  };
}

/** The first of the two bends of three straight lines. */
export const firstTurnPoint = turnPoint(1, {
  id: 'turn-point-1',
  name: 'Turn point 1',
  claim: 'LT1',
  meaning: 'The first bend of three straight lines through the readings: lactate begins to rise.',
  bias: 'Very sensitive to noise at low lactate; depends on how many stages lie on either side.',
  shorterStages: 'higher',
});

/** The second of the two bends of three straight lines. */
export const secondTurnPoint = turnPoint(2, {
  id: 'turn-point-2',
  name: 'Turn point 2',
  claim: 'LT2',
  meaning: 'The second bend of three straight lines through the readings: lactate begins to rise steeply.',
  bias: 'Tied to the last stages: with one reading beyond the bend it is set by that reading.',
  shorterStages: 'higher',
});
