import type { Curve } from '../curves/curve.ts';
import { LeastRatio } from '../leastRatio.ts';
import type { Refusal, RefusalCode } from '../refusal.ts';
import { intensityText, notConvex, singular } from '../refusal.ts';
import type { Readings } from '../stepTest.ts';
import { give, refuse } from './answer.ts';
import { crossLevel, explainLevel, levelWarnings } from './level.ts';
import type { Method, Situation } from './method.ts';

/** Whether the least ratio sits at an end of the tested range, where the protocol set it. */
const atEdge = (x: number, curve: Curve): boolean => {
  const slack = 1e-6 * (curve.hi - curve.lo);
  return x - curve.lo < slack || curve.hi - x < slack;
};

function refuseAtZero({ x }: Readings): Refusal | null {
  if (x[0]! > 0) return null;
  return {
    code: 'E_PROTOCOL',
    reason:
      'Lactate per unit of intensity has no meaning at intensity 0: leave the rest sample out of the readings.',
  };
}

function explainRatio(code: RefusalCode, { readings, curve }: Situation): string {
  const { x, axis } = readings;
  if (code === 'E_EDGE' && curve) {
    const edge = new LeastRatio(x).of(curve) < (curve.lo + curve.hi) / 2 ? x[0]! : x.at(-1)!;
    return (
      `Lactate per unit of intensity is least at the edge of the tested range (${intensityText(edge, axis)}): ` +
      'the protocol set it, not the athlete.'
    );
  }
  return code === 'E_NOT_CONVEX' ? notConvex() : singular(x.length);
}

export const minimumEquivalent: Method = {
  id: 'minimum-equivalent',
  name: 'Minimum equivalent',
  claim: 'LT1',
  meaning: 'Where lactate is least for the intensity it buys (minimum lactate equivalent).',
  source:
    'Berg et al. 1990, Pneumologie 44 Suppl 1:2–13; Dickhuth et al. 1999, Int J Sports Med 20:122–127 (from memory)',
  curve: 'cubic',
  anyCurve: true,
  minPoints: 5,
  maximal: false,
  discrete: false,
  bias: 'Set by the first stage when the test starts too hard; on a bicycle 0 W is not rest, so power and oxygen uptake differ.',
  refuses: refuseAtZero,
  prepare: ({ x }) => {
    const leastRatio = new LeastRatio(x);
    return (_y, curve, answer) => {
      const best = leastRatio.of(curve!);
      if (atEdge(best, curve!)) refuse(answer, 'E_EDGE');
      else give(answer, best, curve!.at(best));
    };
  },
  explain: explainRatio,
};

/** Rise above the lactate at the minimum, mmol/L. */
const RISE = 1.5;

export const minimumEquivalentPlus: Method = {
  id: 'minimum-equivalent-plus-1.5',
  name: 'Minimum equivalent + 1.5',
  claim: 'LT2',
  meaning: 'Where lactate has risen by 1.5 mmol/L above its value at the minimum lactate equivalent.',
  source:
    'Roecker et al. 1998, Med Sci Sports Exerc 30:1552–1557; Dickhuth et al. 1999, Int J Sports Med 20:122–127 (from memory)',
  curve: 'cubic',
  anyCurve: true,
  minPoints: 5,
  maximal: false,
  discrete: false,
  bias: 'Little moved by noise; falls as stages get longer.',
  refuses: refuseAtZero,
  prepare: ({ x }) => {
    const leastRatio = new LeastRatio(x);
    return (_y, curve, answer) => {
      const from = leastRatio.of(curve!);
      crossLevel(curve!, curve!.at(from) + RISE, answer, from);
    };
  },
  explain: (code, situation) => {
    const { curve, readings } = situation;
    if (!curve) return explainRatio(code, situation);
    return explainLevel(code, curve.at(new LeastRatio(readings.x).of(curve)) + RISE, situation);
  },
  warnings: (answer, situation) => {
    const { curve, readings } = situation;
    const edge =
      'The minimum equivalent lies at the edge of the tested range; its lactate is used, its place is not known.';
    const warnings = levelWarnings(answer, situation);
    return curve && atEdge(new LeastRatio(readings.x).of(curve), curve) ? [edge, ...warnings] : warnings;
  },
};
