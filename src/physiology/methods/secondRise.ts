import { answerMark, type Mark, ON_LACTATE, scene } from '../construction.ts';
import { beforeSecondRise, nextRise, SecondRise } from './estimators/rises.ts';
import type { Method } from './method.ts';

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
  prepare: ({ x }) => new SecondRise(x),
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
