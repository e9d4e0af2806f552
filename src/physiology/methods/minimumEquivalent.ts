import { type Axes, answerMark, drawn, levelMark, type Mark, ON_LACTATE, scene } from '../construction.ts';
import type { Curve } from '../curves/curve.ts';
import { LeastRatio } from '../leastRatio.ts';
import type { Refusal } from '../refusal.ts';
import { intensityText, notConvex, singular } from '../refusal.ts';
import type { RefusalCode } from '../refusalCodes.ts';
import type { Readings } from '../stepTest.ts';
import type { Answer } from './answer.ts';
import { isAtEdge, MinimumEquivalent, MinimumEquivalentPlus } from './estimators/equivalent.ts';
import { explainLevel, levelWarnings, oneDecimal } from './level.ts';
import type { Method, Situation } from './method.ts';

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
    const edge = new LeastRatio(x.length).of(curve) < (curve.lo + curve.hi) / 2 ? x[0]! : x.at(-1)!;
    return (
      `Lactate per unit of intensity is least at the edge of the tested range (${intensityText(edge, axis)}): ` +
      'the protocol set it, not the athlete.'
    );
  }
  return code === 'E_NOT_CONVEX' ? notConvex() : singular(x.length);
}

const ON_EQUIVALENT: Axes = { x: 'intensity', y: 'equivalent', logarithmic: false };

/** Readings and curve divided by their intensity. */
function equivalents({ readings: { x, y }, curve }: Situation): Mark[] {
  if (!(x[0]! > 0)) return [];
  const points: Mark = { kind: 'readings', x: [...x], y: Array.from(y, (value, i) => value / x[i]!) };
  if (curve?.status !== 'ok') return [points];
  return [points, ...drawn((at) => curve.at(at) / at, curve.lo, curve.hi, 'fitted curve over intensity')];
}

/** Where lactate over intensity is least; `MINIMUM_EQUIVALENT_PLUS` counts on from there. */
export const minimumEquivalent: Method = {
  id: 'minimum-equivalent',
  name: 'Minimum equivalent',
  claim: 'LT1',
  meaning: 'Where lactate is least for the intensity it buys (minimum lactate equivalent).',
  source:
    'Berg et al. 1990, Pneumologie 44 Suppl 1:2–13; Dickhuth et al. 1999, Int J Sports Med 20:122–127 (from memory)',
  protocol: 'step',
  curve: 'cubic',
  anyCurve: true,
  minPoints: 5,
  maximal: false,
  discrete: false,
  bias: 'Set by the first stage when the test starts too hard; on a bicycle 0 W is not rest, so power and oxygen uptake differ.',
  shorterStages: 'little',
  refusals: ['E_EDGE', 'E_NOT_CONVEX', 'E_SINGULAR'],
  refuses: refuseAtZero,
  prepare: ({ x }) => new MinimumEquivalent(x.length),
  explain: explainRatio,
  construct: (answer, situation) => ({
    axes: ON_EQUIVALENT,
    marks: [
      ...equivalents(situation),
      ...(answer === null ? [] : answerMark({ x: answer.x, lactate: answer.lactate / answer.x })),
    ],
    caption: 'Lactate divided by intensity; the answer is where it is least.',
  }),
};

/** What rises from the lactate at the minimum equivalent, and who described it. */
function minimumEquivalentPlusRise(rise: number, source: string): Method {
  const target = (curve: Curve, from: number) => curve.at(from) + rise;
  return {
    id: `minimum-equivalent-plus-${oneDecimal(rise)}`,
    name: `Minimum equivalent + ${oneDecimal(rise)}`,
    claim: 'LT2',
    meaning: `Where lactate has risen by ${oneDecimal(rise)} mmol/L above its value at the minimum lactate equivalent.`,
    source,
    protocol: 'step',
    curve: 'cubic',
    anyCurve: true,
    minPoints: 5,
    maximal: false,
    discrete: false,
    bias: 'Little moved by noise; falls as stages get longer.',
    shorterStages: 'higher',
    refusals: ['E_NOT_REACHED', 'E_NOT_CONVEX', 'E_SINGULAR'],
    refuses: refuseAtZero,
    prepare: ({ x }) => new MinimumEquivalentPlus(rise, x.length),
    explain: (code, situation) => {
      const { curve, readings } = situation;
      if (!curve) return explainRatio(code, situation);
      return explainLevel(code, target(curve, new LeastRatio(readings.x.length).of(curve)), situation);
    },
    warnings: edgeAndLevelWarnings,
    construct: (answer, situation) => {
      const { curve, readings } = situation;
      const from =
        curve?.status === 'ok' && readings.x[0]! > 0 ? new LeastRatio(readings.x.length).of(curve) : null;
      return {
        axes: ON_LACTATE,
        marks: [...scene(situation), ...riseMarks(curve, from, rise), ...answerMark(answer)],
        caption: `From the lactate at the minimum equivalent ${oneDecimal(rise)} mmol/L up; the answer is where the curve gets there.`,
      };
    },
  };
}

/** The minimum equivalent on the curve, and the rise from it to the target. */
function riseMarks(curve: Curve | null, from: number | null, rise: number): Mark[] {
  if (curve === null || from === null) return [];
  const lactate = curve.at(from);
  return [
    { kind: 'point', at: [from, lactate], role: 'anchor', label: 'minimum equivalent' },
    {
      kind: 'line',
      from: [from, lactate],
      to: [from, lactate + rise],
      role: 'rise',
      label: `+ ${oneDecimal(rise)} mmol/L`,
    },
    levelMark(lactate + rise, 'target'),
  ];
}

function edgeAndLevelWarnings(answer: Answer, situation: Situation): string[] {
  const { curve, readings } = situation;
  const edge =
    'The minimum equivalent lies at the edge of the tested range; its lactate is used, its place is not known.';
  const warnings = levelWarnings(answer, situation);
  return curve && isAtEdge(new LeastRatio(readings.x.length).of(curve), curve)
    ? [edge, ...warnings]
    : warnings;
}

/** Second thresholds a fixed rise of lactate above that at the minimum equivalent. */
export const MINIMUM_EQUIVALENT_PLUS: readonly Method[] = [
  minimumEquivalentPlusRise(
    1.0,
    'A variant for cycling after Berg et al. 1990, Pneumologie 44 Suppl 1:2–13 (from memory; its source is weak)',
  ),
  minimumEquivalentPlusRise(
    1.5,
    'Roecker et al. 1998, Med Sci Sports Exerc 30:1552–1557; Dickhuth et al. 1999, Int J Sports Med 20:122–127 (from memory)',
  ),
];
