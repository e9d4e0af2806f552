import type { Sport } from '../base/units.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import { thresholdDraws } from '../physiology/thresholdDraws.ts';
import type { TrainingLevel } from '../physiology/training/fromThreshold.ts';
import { MINUTES_AT_LT2 } from '../physiology/training/fromThreshold.ts';
import type { SinceTest } from '../physiology/training/trainingBreak.ts';
import { type Choice, type NumberField, numberField } from '../view/controls.ts';
import { choiceOf } from './choices.ts';
import { answerOf } from './methodRows.ts';
import { type StartedGrid, whoseData } from './whoseData.ts';

/** How well trained the athlete is: it decides how long the second threshold is held. */
export const levelChoice = (value: TrainingLevel): Choice<TrainingLevel> =>
  choiceOf(
    'Endurance training',
    value,
    { moderate: 'moderate', trained: 'trained', 'well-trained': 'well trained, for years' },
    `Median time at the second threshold: ${Object.values(MINUTES_AT_LT2).join(', ')} min. About 60 for the average trained person (common practice).`,
  );

const CLAIM_UNITS: Record<Sport, string> = { cycling: 'W', running: 'km/h', rowing: '' };

/** A number that knows what it started out with. */
export interface ClaimField extends NumberField {
  start: number | null;
}

/** What the athlete says can be held for an hour, on the axis of the test. */
export const claimField = (sport: Sport, value: number | null): ClaimField => ({
  ...numberField({
    label: 'The athlete claims',
    unit: CLAIM_UNITS[sport],
    min: 1,
    value,
    help: 'In the unit of the stages. Empty when nothing is claimed.',
  }),
  start: value,
});

/** The claim; null when there is none, or when it is still the demonstration's beside a test of the reader's own. */
export const claimIn = (
  { value, start }: Pick<ClaimField, 'value' | 'start'>,
  stages: Pick<StartedGrid, 'value' | 'start'>,
): number | null => (value === start && whoseData(stages) !== 'invented' ? null : value);

/** The second threshold as the hour needs it; null where the test does not determine it. */
export function thresholdForHour(result: SamplingResult, method: string) {
  const answer = answerOf(result, method);
  if (answer === null || answer.interval === null) return null;
  return { draws: thresholdDraws(result, method), middle: answer.intensity };
}

/** What happened since the tests, from its controls. */
export const sinceTest = (controls: {
  daysSince: Pick<NumberField, 'value'>;
  daysOff: Pick<NumberField, 'value'>;
}): SinceTest => ({
  days: Math.max(0, controls.daysSince.value ?? 0),
  daysWithoutTraining: Math.max(0, controls.daysOff.value ?? 0),
});
