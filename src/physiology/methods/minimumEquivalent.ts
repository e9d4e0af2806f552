import type { Curve } from '../curves/curve.ts';
import type { RefusalCode } from '../refusal.ts';
import { intensityText, notConvex, singular } from '../refusal.ts';
import { give, refuse } from './answer.ts';
import { crossLevel, explainLevel, levelWarnings } from './level.ts';
import type { Method, Situation } from './method.ts';

/** Pieces that each gap between stages is searched in; every stage is a grid point too. */
const PIECES = 4;

/**
 * Intensity of the least lactate per unit of intensity, f(x)/x, on the tested range; an end of the range when the
 * ratio still falls there. Intensities must be above 0.
 *
 * Model     the ratio is least where a line through the origin touches the curve: x·f′(x) = f(x)
 * Stops     bisection between the grid neighbours of the least value, to 1e-9 of the range
 * Cost      a grid of 4 points a gap, then some 25 slopes; allocates nothing
 */
function leastRatio(curve: Curve, x: Float64Array): number {
  let best = x[0]!;
  let least = Infinity;
  let step = 0;
  for (let i = 0; i < x.length; i++) {
    const width = i + 1 < x.length ? (x[i + 1]! - x[i]!) / PIECES : 0;
    for (let k = 0; k < (width > 0 ? PIECES : 1); k++) {
      const here = x[i]! + k * width;
      const ratio = curve.at(here) / here;
      if (ratio >= least) continue;
      [least, best, step] = [ratio, here, Math.max(width, i > 0 ? (x[i]! - x[i - 1]!) / PIECES : 0)];
    }
  }
  let low = Math.max(curve.lo, best - step);
  let high = Math.min(curve.hi, best + step);
  const tolerance = 1e-9 * (curve.hi - curve.lo);
  while (high - low > tolerance) {
    const middle = (low + high) / 2;
    if (middle * curve.slope(middle) < curve.at(middle)) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Whether the least ratio sits at an end of the tested range, where the protocol set it. */
const atEdge = (x: number, curve: Curve): boolean => {
  const slack = 1e-6 * (curve.hi - curve.lo);
  return x - curve.lo < slack || curve.hi - x < slack;
};

function explainRatio(code: RefusalCode, { readings, curve }: Situation): string {
  const { x, axis } = readings;
  if (code === 'E_EDGE' && curve) {
    const edge = leastRatio(curve, x) < (curve.lo + curve.hi) / 2 ? x[0]! : x.at(-1)!;
    return (
      `Lactate per unit of intensity is least at the edge of the tested range (${intensityText(edge, axis)}): ` +
      'the protocol set it, not the athlete.'
    );
  }
  if (code === 'E_PROTOCOL') return 'Lactate per unit of intensity has no meaning at intensity 0.';
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
  prepare:
    ({ x }) =>
    (_y, curve, answer) => {
      if (!(x[0]! > 0)) return refuse(answer, 'E_PROTOCOL');
      const best = leastRatio(curve!, x);
      if (atEdge(best, curve!)) refuse(answer, 'E_EDGE');
      else give(answer, best, curve!.at(best));
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
  prepare:
    ({ x }) =>
    (_y, curve, answer) => {
      if (!(x[0]! > 0)) return refuse(answer, 'E_PROTOCOL');
      const from = leastRatio(curve!, x);
      crossLevel(curve!, curve!.at(from) + RISE, answer, from);
    },
  explain: (code, situation) => {
    const { curve, readings } = situation;
    if (code === 'E_PROTOCOL' || !curve) return explainRatio(code, situation);
    return explainLevel(code, curve.at(leastRatio(curve, readings.x)) + RISE, situation);
  },
  warnings: (answer, situation) => {
    const { curve, readings } = situation;
    const edge =
      'The minimum equivalent lies at the edge of the tested range; its lactate is used, its place is not known.';
    const warnings = levelWarnings(answer, situation);
    return curve && atEdge(leastRatio(curve, readings.x), curve) ? [edge, ...warnings] : warnings;
  },
};
