import { formatNumber } from '../../base/format.ts';
import type { Mark } from '../construction.ts';
import { NO_ERROR } from '../errorModel.ts';
import { intensityText, lactateText, type Refusal } from '../refusal.ts';
import type { RefusalCode } from '../refusalCodes.ts';
import { boutVerdicts, bracketOf, isSteady, meanFrom, placedBouts, STEADY_RISE } from '../steadyBouts.ts';
import type { Readings } from '../stepTest.ts';
import type { Answer } from './answer.ts';
import { give, refuse } from './answer.ts';
import { notCompiled } from './estimators/notCompiled.ts';
import type { Method, Situation } from './method.ts';

/** A bout that went on has to have samples at minutes 10 and 30. */
function refuseWithoutSamples(readings: Readings): Refusal | null {
  const bare = placedBouts(readings).find((b) => !b.stopped && (b.first < 0 || b.last < 0));
  if (!bare) return null;
  return {
    code: 'E_POINTS',
    reason: `The bout at ${intensityText(bare.intensity, readings.axis)} has no sample at minute ${bare.first < 0 ? 10 : 30}.`,
  };
}

function explainRefusal(code: RefusalCode, { readings }: Situation): string {
  const bouts = placedBouts(readings);
  const text = (x: number) => intensityText(x, readings.axis);
  const rise = lactateText(STEADY_RISE);
  if (code === 'E_NOT_REACHED')
    return `Every bout was steady: the maximal lactate steady state is ${text(bouts.at(-1)!.intensity)} or more.`;
  if (code === 'E_ALREADY_ABOVE')
    return `No bout was steady: in the easiest (${text(bouts[0]!.intensity)}) lactate rose by more than ${rise} from minute 10 to 30, or it was given up.`;
  const unsteady = bouts.find((b) => !isSteady(b, readings.y))!;
  const above = bouts.find((b) => b.intensity > unsteady.intensity && isSteady(b, readings.y))!;
  return `The bout at ${text(above.intensity)} was steady although that at ${text(unsteady.intensity)} was not: repeat one of them.`;
}

function warningsFor({ readings }: Situation): string[] {
  const bracket = bracketOf(boutVerdicts(readings, NO_ERROR));
  if (bracket === null) return [];
  const text = (x: number) => intensityText(x, readings.axis);
  const between =
    bracket.between === null ? '' : ` By the rise of lactate it is near ${text(bracket.between)} (our rule).`;
  return [
    `The highest steady bout is given, which lies low by up to a step: the steady state ends between ${text(bracket.steady)} and ${text(bracket.unsteady)}.${between}`,
    'Bouts count only when the athlete was rested and had eaten as usual: a day or two apart, none after a hard day.',
  ];
}

/**
 * Maximal lactate steady state from bouts at constant intensity: the hardest in which lactate rises by at most
 * 1.0 mmol/L from minute 10 to minute 30.
 */
export const steadyStateBouts: Method = {
  id: 'steady-state-bouts',
  name: 'Steady-state bouts',
  claim: 'MLSS',
  meaning:
    'The hardest constant effort in which lactate rises by no more than 1.0 mmol/L from minute 10 to minute 30.',
  source:
    'Heck et al. 1985, Int J Sports Med 6:117–130; Beneke 2003, Eur J Appl Physiol 89:95–99 (from memory)',
  protocol: 'bouts',
  curve: null,
  anyCurve: false,
  minPoints: 2,
  maximal: false,
  discrete: true,
  alsoNeeds: ['samples at minutes 10 and 30 of each bout', 'a steady bout and a harder one that is not'],
  bias: 'The criterion itself: low by up to the step between bouts; a reading off by 0.2 mmol/L may turn a verdict.',
  shorterStages: 'unknown',
  refusals: ['E_POINTS', 'E_NOT_REACHED', 'E_ALREADY_ABOVE', 'E_PROTOCOL'],
  refuses: refuseWithoutSamples,
  prepare: (readings) => {
    const bouts = placedBouts(readings);
    return notCompiled((y, _curve, answer) => {
      let highest = -1;
      let unsteady = -1;
      for (let i = 0; i < bouts.length; i++) {
        if (isSteady(bouts[i]!, y)) highest = i;
        else if (unsteady < 0) unsteady = i;
      }
      if (highest < 0) return refuse(answer, 'E_ALREADY_ABOVE');
      if (unsteady < 0) return refuse(answer, 'E_NOT_REACHED');
      if (highest > unsteady) return refuse(answer, 'E_PROTOCOL');
      give(answer, bouts[highest]!.intensity, meanFrom(bouts[highest]!, y));
    });
  },
  explain: explainRefusal,
  warnings: (_answer, situation) => warningsFor(situation),
  construct: (answer, situation) => ({
    axes: { x: 'intensity', y: 'rise', logarithmic: false },
    marks: risesOf(answer, situation),
    caption: `The rise of lactate from minute 10 to minute 30 in each bout; the answer is the hardest bout with ${formatNumber(STEADY_RISE, 1)} mmol/L or less.`,
  }),
};

function risesOf(answer: Answer | null, { readings }: Situation): Mark[] {
  const verdicts = boutVerdicts(readings, NO_ERROR);
  const known = verdicts.flatMap(({ intensity, rise }) => (rise === null ? [] : [{ intensity, rise }]));
  const bracket = bracketOf(verdicts);
  const marks: Mark[] = [
    { kind: 'readings', x: known.map((v) => v.intensity), y: known.map((v) => v.rise) },
    { kind: 'level', y: STEADY_RISE, label: `steady up to ${lactateText(STEADY_RISE)}` },
  ];
  for (const { intensity, stopped } of verdicts) {
    if (stopped) marks.push({ kind: 'upright', x: intensity, label: 'given up' });
  }
  if (bracket)
    marks.push({ kind: 'span', from: bracket.steady, to: bracket.unsteady, label: 'between these' });
  const chosen = answer && known.find((v) => v.intensity === answer.x);
  if (chosen)
    marks.push({
      kind: 'point',
      at: [chosen.intensity, chosen.rise],
      role: 'answer',
      label: 'highest steady',
    });
  return marks;
}
