import { bracketedNewton, type Differentiable } from '../../numerics/bracketedNewton.ts';
import { drawn, type Mark, tangentMark } from '../construction.ts';
import type { Curve } from '../curves/curve.ts';
import type { Refusal } from '../refusal.ts';
import { lactateText, notConvex, singular } from '../refusal.ts';
import type { RefusalCode } from '../refusalCodes.ts';
import type { Readings, RecoveryReadings } from '../stepTest.ts';
import type { Answer } from './answer.ts';
import { give, refuse } from './answer.ts';
import { notCompiled } from './estimators/notCompiled.ts';
import type { Method, Situation } from './method.ts';

/**
 * Minutes after the end at which recovery lactate, past its peak, is back at its value at the end of exercise; NaN
 * when it never is, or when all samples lie below that value.
 *
 * Departs   straight lines between the samples; the paper fits a diffusion curve (from memory)
 *
 * @example
 * minuteOfReturn({ minute: [1, 3, 5, 7, 10], lactate: [9.2, 9.4, 8.9, 8.2, 7] }, 8) // 7.5
 */
export function minuteOfReturn(
  { minute, lactate }: { minute: ArrayLike<number>; lactate: ArrayLike<number> },
  end: number,
): number {
  let peak = 0;
  for (let i = 1; i < lactate.length; i++) if (lactate[i]! > lactate[peak]!) peak = i;
  if (!(lactate[peak]! >= end)) return Number.NaN;
  for (let i = peak + 1; i < lactate.length; i++) {
    if (lactate[i]! > end) continue;
    const share = (lactate[i - 1]! - end) / (lactate[i - 1]! - lactate[i]!);
    return minute[i - 1]! + share * (minute[i]! - minute[i - 1]!);
  }
  return Number.NaN;
}

/**
 * Where a line through a place to the right of a curve touches the curve from below.
 *
 * Model     y(t) + y′(t)·(from − t) = level; its left side rises with t wherever the curve bends upward
 * Accuracy  for an exponential a + b·e^(c·t) it meets t = from + (1 + W₋₁(−K))/c, K = (level − a)/(b·e^(c·from + 1)),
 *           W₋₁ being the lower branch of Lambert's function (tests/physiology/individualAnaerobic.test.ts)
 */
export class TouchingLine implements Differentiable {
  /** The place that the line goes through. */
  #from = Number.NaN;
  #curve: Curve | null = null;

  /** NaN when the line would touch the curve outside its range, or on a part that bends downward. */
  find(curve: Curve, from: number, level: number): number {
    this.#curve = curve;
    this.#from = from;
    return bracketedNewton(this, level, startOfUpwardBend(curve), curve.hi);
  }

  at(t: number): number {
    return this.#curve!.at(t) + this.#curve!.slope(t) * (this.#from - t);
  }

  slope(t: number): number {
    return this.#curve!.curvature(t) * (this.#from - t);
  }
}

/** Where an exponential or a cubic begins to bend upward; their curvature never changes sign twice. */
function startOfUpwardBend(curve: Curve): number {
  const [first, last] = [curve.curvature(curve.lo), curve.curvature(curve.hi)];
  if (first >= 0) return curve.lo;
  return curve.lo + ((curve.hi - curve.lo) * first) / (first - last);
}

function intensityAt(t: number, { minute, x }: Readings): number {
  let i = 1;
  while (i < x.length - 1 && minute![i]! < t) i++;
  const share = (t - minute![i - 1]!) / (minute![i]! - minute![i - 1]!);
  return x[i - 1]! + share * (x[i]! - x[i - 1]!);
}

const ascends = (values: Float64Array): boolean => values.every((v, i) => i === 0 || v > values[i - 1]!);

const NO_RECOVERY =
  'It needs lactate samples from the minutes after the end of the test, such as at 1, 3, 5, 7 and 10 minutes; there are none.';
const RECOVERY_SET_ASIDE =
  'It needs a curve that ends with the lactate of the last stage done, from which recovery falls; this one does not, so the recovery samples are not used.';

function refuseBefore({ recovery, recoverySetAside, minute }: Readings): Refusal | null {
  if (recovery === null)
    return { code: 'E_NO_RECOVERY', reason: recoverySetAside ? RECOVERY_SET_ASIDE : NO_RECOVERY };
  if (minute === null) {
    return {
      code: 'E_PROTOCOL',
      reason: 'It works on the time axis, and the length of the stages is not known.',
    };
  }
  if (ascends(minute)) return null;
  return {
    code: 'E_PROTOCOL',
    reason: 'It works on the time axis: the stages must rise one after the other.',
  };
}

/**
 * Individual anaerobic threshold: from the moment at which recovery lactate is back at its value at the end, the
 * tangent to the lactate curve over time.
 *
 * Departs   a stage's sample belongs to the end of that stage, and minutes turn into intensities by straight lines
 *           between those; how the paper does both is not known here
 */
export const individualAnaerobic: Method = {
  id: 'individual-anaerobic',
  name: 'Individual anaerobic threshold',
  claim: 'LT2',
  meaning:
    'The hardest intensity at which, by diffusion from muscle to blood, lactate is still cleared as fast as it appears.',
  source:
    'Stegmann, Kindermann & Schnabel 1981, Int J Sports Med 2:160–165; Stegmann & Kindermann 1982, Int J Sports Med 3:105–110 (from memory)',
  protocol: 'step',
  curve: 'exponential',
  anyCurve: false,
  curves: ['exponential', 'cubic'],
  overTime: true,
  minPoints: 5,
  maximal: true,
  discrete: false,
  alsoNeeds: ['the length of the stages', 'recovery samples until lactate is below its value at the end'],
  bias: 'Depends on how exhausted the athlete was and on rest or movement afterwards; rises as stages get longer.',
  shorterStages: 'lower',
  refusals: ['E_NO_RECOVERY', 'E_NO_RETURN', 'E_EDGE', 'E_NOT_CONVEX', 'E_SINGULAR'],
  applies: ({ recovery }) => recovery !== null,
  refuses: refuseBefore,
  prepare: (readings) => {
    const touching = new TouchingLine();
    return notCompiled((y, curve, answer) => {
      const level = y[y.length - 1]!;
      const back = minuteOfReturn(readings.recovery!, level);
      if (Number.isNaN(back)) return refuse(answer, 'E_NO_RETURN');
      if (!(curve!.curvature(curve!.hi) > 0)) return refuse(answer, 'E_NOT_CONVEX');
      const t = touching.find(curve!, curve!.hi + back, level);
      if (Number.isNaN(t) || t === curve!.lo || t === curve!.hi) refuse(answer, 'E_EDGE');
      else give(answer, intensityAt(t, readings), curve!.at(t));
    });
  },
  explain: explainRefusal,
  warnings: (_answer, { readings }) => warningsFor(readings.recovery!),
  construct: (answer, situation) => ({
    axes: { x: 'minute', y: 'lactate', logarithmic: false },
    marks: marksOverTime(answer, situation),
    caption:
      'Over time: where recovery is back at the lactate of the end, a line goes back to touch the curve; the answer is the intensity at that minute.',
  }),
};

function explainRefusal(code: RefusalCode, { readings }: Situation): string {
  if (code === 'E_NO_RETURN') {
    const end = readings.y.at(-1)!;
    return readings.recovery!.lactate.every((lactate) => lactate < end)
      ? `The recovery samples start below the ${lactateText(end)} of the end: take one at 1 minute.`
      : `In recovery lactate never fell back to the ${lactateText(end)} of the end: take samples for longer.`;
  }
  if (code === 'E_EDGE')
    return 'The line from the recovery touches the curve outside the time of the stages.';
  return code === 'E_NOT_CONVEX' ? notConvex() : singular(readings.x.length);
}

function warningsFor({ mode }: RecoveryReadings): string[] {
  if (mode === null)
    return [
      'Nothing says whether the athlete rested or moved after the test: lactate falls faster when moving.',
    ];
  return mode === 'active'
    ? ['After an active recovery lactate falls faster, and this threshold comes out higher than after rest.']
    : [];
}

function marksOverTime(answer: Answer | null, { readings, curve }: Situation): Mark[] {
  const { minute, x, y, recovery } = readings;
  if (minute === null) return [];
  const marks: Mark[] = [{ kind: 'readings', x: [...minute], y: [...y] }];
  if (curve?.status === 'ok') marks.push(...drawn((t) => curve.at(t), curve.lo, curve.hi, 'fitted curve'));
  if (recovery === null) return marks;
  const end = minute.at(-1)!;
  marks.push({ kind: 'readings', x: Array.from(recovery.minute, (t) => end + t), y: [...recovery.lactate] });
  const level = y.at(-1)!;
  const back = minuteOfReturn(recovery, level);
  marks.push({ kind: 'level', y: level, label: `lactate at the end ${lactateText(level)}` });
  if (Number.isNaN(back)) return marks;
  marks.push({ kind: 'point', at: [end + back, level], role: 'anchor', label: 'back at the end value' });
  if (answer === null) return marks;
  const i = x.findIndex((value) => value >= answer.x);
  const share = (answer.x - x[i - 1]!) / (x[i]! - x[i - 1]!);
  const t = minute[i - 1]! + share * (minute[i]! - minute[i - 1]!);
  const slope = (level - answer.lactate) / (end + back - t);
  marks.push(tangentMark([t, answer.lactate], slope, t, end + back, 'touching line'));
  marks.push({ kind: 'point', at: [t, answer.lactate], role: 'answer', label: 'threshold' });
  return marks;
}
