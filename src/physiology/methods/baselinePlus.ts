import { BASELINE_NAMES, BASELINE_NUMBERS, baselineLactate } from '../baseline.ts';
import { answerMark, levelMark, ON_LACTATE, scene } from '../construction.ts';
import type { Refusal } from '../refusal.ts';
import type { Readings } from '../stepTest.ts';
import { BaselinePlus } from './estimators/level.ts';
import { explainLevel, levelWarnings, oneDecimal } from './level.ts';
import type { Claim, Method, MethodOptions } from './method.ts';

function refuseWithoutRest(readings: Readings, { baseline }: MethodOptions): Refusal | null {
  if (baseline !== 'rest' || readings.restLactate !== null) return null;
  return {
    code: 'E_POINTS',
    reason:
      'The baseline is set to lactate at rest, and this test has no rest sample: choose another baseline.',
  };
}

function baselinePlus(rise: number, claim: Claim, source: string): Method {
  return {
    id: `baseline-plus-${oneDecimal(rise)}`,
    name: `Baseline + ${oneDecimal(rise)}`,
    claim,
    meaning: `Where lactate has risen by ${oneDecimal(rise)} mmol/L above the athlete's baseline.`,
    source,
    protocol: 'step',
    curve: 'raw',
    anyCurve: true,
    minPoints: 4,
    maximal: false,
    discrete: false,
    bias: 'Depends on how the baseline is defined: one low reading makes it early; the curve is flat here, so noise counts most.',
    shorterStages: 'higher',
    refusals: ['E_NOT_REACHED', 'E_ALREADY_ABOVE', 'E_NOT_CONVEX', 'E_SINGULAR'],
    refuses: refuseWithoutRest,
    prepare: (_readings, { baseline }, rest) => new BaselinePlus(rise, BASELINE_NUMBERS[baseline], rest),
    explain: (code, situation) => {
      const { readings, options } = situation;
      return explainLevel(code, baselineLactate(options.baseline, readings.y, readings) + rise, situation);
    },
    warnings: (answer, situation) => [
      `Baseline: ${BASELINE_NAMES[situation.options.baseline]}.`,
      ...levelWarnings(answer, situation),
    ],
    construct: (answer, situation) => {
      const { readings, options } = situation;
      const base = baselineLactate(options.baseline, readings.y, readings);
      const levels = Number.isNaN(base)
        ? []
        : [levelMark(base, 'baseline'), levelMark(base + rise, 'target')];
      return {
        axes: ON_LACTATE,
        marks: [...scene(situation), ...levels, ...answerMark(answer)],
        caption: `The target is ${oneDecimal(rise)} mmol/L above the ${BASELINE_NAMES[options.baseline]}; the answer is where the curve rises through it.`,
      };
    },
  };
}

/** Baseline plus a rise: where the curve crosses the baseline lactate plus a fixed amount. */
export const BASELINE_PLUS: readonly Method[] = [
  baselinePlus(
    0.3,
    'LT1',
    'Laboratory practice; no paper known that set 0.3 (0.2 to 0.5: Weltman 1995, ' +
      'The Blood Lactate Response to Exercise, from memory)',
  ),
  baselinePlus(
    0.4,
    'LT1',
    'About twice the error of a laboratory analyser: Bishop, Jenkins & Mackinnon 1998, ' +
      'Med Sci Sports Exerc 30:1270–1275 (from memory)',
  ),
  baselinePlus(
    0.5,
    'LT1',
    'Zoladz et al. 1995, J Physiol 488:211–217; Weltman 1995, The Blood Lactate Response to Exercise (from memory)',
  ),
  baselinePlus(
    1.0,
    'LT1',
    'Coyle et al. 1983, J Appl Physiol 54:18–23; Hagberg & Coyle 1983, Med Sci Sports Exerc 15:287–289 (from memory)',
  ),
  baselinePlus(
    1.5,
    'LT2',
    'Helgerud, Ingjer & Strømme 1990, Eur J Appl Physiol 61:433–439, over warm-up lactate (from memory)',
  ),
];
