import { answerMark, type Mark, ON_LACTATE, scene } from '../construction.ts';
import { give, refuse } from './answer.ts';
import { ROUNDING_SLACK } from './level.ts';
import type { Method } from './method.ts';

/** Rise from stage to stage that counts, mmol/L. */
const RISE = 0.5;

/** Index of the first rise of 0.5 mmol/L or more after `from`, and greater than `than`; -1 when there is none. */
function nextRise(y: Float64Array, from: number, than: number): number {
  for (let i = from; i + 1 < y.length; i++) {
    const rise = y[i + 1]! - y[i]!;
    if (rise >= RISE - ROUNDING_SLACK && rise > than + ROUNDING_SLACK) return i;
  }
  return -1;
}

/** Index of the stage before the second rise; -1 when there is none. */
function beforeSecondRise(y: Float64Array): number {
  const first = nextRise(y, 0, -Infinity);
  return first < 0 ? -1 : nextRise(y, first + 1, y[first + 1]! - y[first]!);
}

/**
 * Second rise: the stage before a second rise of 0.5 mmol/L or more that exceeds the first one.
 *
 * Departs   perhaps: whether the paper wants the two rises to follow one another directly, and whether an equal second
 *           rise counts, could not be checked; here a smaller rise may lie between, and the second must be greater
 */
export const secondRise: Method = {
  id: 'second-rise',
  name: 'Second rise',
  claim: 'LT2',
  meaning:
    'The hardest stage before lactate rises, for the second time and by more than the first, by 0.5 mmol/L or more.',
  source:
    'After Baldari & Guidetti 2000, Med Sci Sports Exerc 32:1798–1802 (from memory, the wording of the rule too)',
  protocol: 'step',
  curve: null,
  anyCurve: false,
  minPoints: 5,
  maximal: false,
  discrete: true,
  bias: 'Moves in whole stages; small steps rise by less than 0.5 mmol/L and make it late; noise can set it off early.',
  shorterStages: 'unknown',
  refusals: ['E_NO_RISE'],
  prepare:
    ({ x }) =>
    (y, _curve, answer) => {
      const stage = beforeSecondRise(y);
      if (stage < 0) refuse(answer, 'E_NO_RISE');
      else give(answer, x[stage]!, y[stage]!);
    },
  explain: () =>
    'There are no two rises of 0.5 mmol/L or more from stage to stage, the second greater than the first.',
  warnings: () => ['The answer is one of the stages: read it as that stage or anything up to the next.'],
  construct: (answer, situation) => {
    const { x, y } = situation.readings;
    const first = nextRise(y, 0, -Infinity);
    const rises = [first, beforeSecondRise(y)].filter((i) => i >= 0);
    return {
      axes: ON_LACTATE,
      marks: [
        ...scene(situation),
        ...rises.map(
          (i, k): Mark => ({
            kind: 'line',
            from: [x[i]!, y[i]!],
            to: [x[i + 1]!, y[i + 1]!],
            role: 'rise',
            label: k === 0 ? 'first rise' : 'second rise',
          }),
        ),
        ...answerMark(answer),
      ],
      caption:
        'Two rises of 0.5 mmol/L or more from one stage to the next; the answer is the stage before the second.',
    };
  },
};
