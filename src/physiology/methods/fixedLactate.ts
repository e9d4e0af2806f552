import { answerMark, levelMark, ON_LACTATE, scene } from '../construction.ts';
import { FixedLevel } from './estimators/level.ts';
import { explainLevel, levelWarnings, oneDecimal } from './level.ts';
import type { Claim, Method } from './method.ts';

function fixedLactate(level: number, claim: Claim, source: string): Method {
  return {
    id: `fixed-${oneDecimal(level)}`,
    name: `Fixed ${oneDecimal(level)}`,
    claim,
    meaning: `Where lactate reaches ${oneDecimal(level)} mmol/L, the same for every athlete.`,
    source,
    protocol: 'step',
    curve: 'raw',
    anyCurve: true,
    minPoints: 4,
    maximal: false,
    discrete: false,
    bias: 'Not individual; a meter that reads high brings it forward; short stages push it up.',
    shorterStages: 'higher',
    refusals: ['E_NOT_REACHED', 'E_ALREADY_ABOVE', 'E_NOT_CONVEX', 'E_SINGULAR'],
    prepare: () => new FixedLevel(level),
    explain: (code, situation) => explainLevel(code, level, situation),
    warnings: levelWarnings,
    construct: (answer, situation) => ({
      axes: ON_LACTATE,
      marks: [...scene(situation), levelMark(level), ...answerMark(answer)],
      caption: `The answer is where the curve last rises through ${oneDecimal(level)} mmol/L.`,
    }),
  };
}

/** Fixed lactate: where the curve crosses a level that is the same for everybody. */
export const FIXED_LACTATE: readonly Method[] = [
  fixedLactate(2, 'LT1', 'Kindermann, Simon & Keul 1979, Eur J Appl Physiol 42:25–34 (from memory)'),
  fixedLactate(3, 'LT2', 'Föhrenbach, Mader & Hollmann 1987, Int J Sports Med 8:11–18 (from memory)'),
  fixedLactate(
    3.5,
    'LT2',
    'Heck et al. 1985, Int J Sports Med 6:117–130, for 3-min treadmill stages (from memory)',
  ),
  fixedLactate(
    4,
    'LT2',
    'Mader et al. 1976, Sportarzt Sportmed 27:80–88; Sjödin & Jacobs 1981, Int J Sports Med 2:23–26; ' +
      'Heck et al. 1985, Int J Sports Med 6:117–130 (from memory)',
  ),
];
