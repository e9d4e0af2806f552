import type { Sport } from '../base/units.ts';
import { areReversed } from '../physiology/bands.ts';
import type { SamplingResult } from '../physiology/samplingTypes.ts';
import { thresholdDraws } from '../physiology/thresholdDraws.ts';
import type { TrainingLevel } from '../physiology/training/fromThreshold.ts';
import { MINUTES_AT_LT2 } from '../physiology/training/fromThreshold.ts';
import type { SinceTest } from '../physiology/training/trainingBreak.ts';
import { type Choice, type NumberField, numberField, type Slider, slider } from '../view/controls.ts';
import { choiceOf } from './choices.ts';
import { answerOf } from './methodRows.ts';
import { type StartedGrid, whoseData } from './whoseData.ts';

/** How well trained the athlete is: it decides how long the second threshold is held. */
export const levelChoice = (value: TrainingLevel): Choice<TrainingLevel> =>
  choiceOf(
    'Endurance training',
    value,
    { moderate: 'moderate', trained: 'trained', 'well-trained': 'well trained, for years' },
    {
      says: `Decides how long the second threshold is held: ${Object.values(MINUTES_AT_LT2).join(', ')} min in the middle.`,
      source:
        'Fontana 2009 and Pallarés 2020 (abstracts), Hafen & Vehrs 2018 (from memory); the middle of each is our rule. About 60 min is common practice.',
    },
  );

const CLAIM_UNITS: Record<Sport, string> = { cycling: 'W', running: 'km/h', rowing: '' };

/** A number that knows what it started out with. */
interface ClaimField extends NumberField {
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
    about: {
      says: 'Is laid beside what efforts and test say of an hour, with the chance that it is true.',
      source: 'our rule',
    },
  }),
  start: value,
});

/** The claim; null when there is none, or when it is still the demonstration's beside a test of the reader's own. */
export const claimIn = (
  { value, start }: Pick<ClaimField, 'value' | 'start'>,
  stages: Pick<StartedGrid, 'value' | 'start'>,
): number | null => (value === start && whoseData(stages) !== 'invented' ? null : value);

/**
 * The second threshold as the hour needs it; null where the test does not determine it, or the first lies above it: then one of
 * the two is wrong.
 */
export function thresholdForHour(result: SamplingResult, lt1: string, lt2: string) {
  const answer = answerOf(result, lt2);
  if (answer === null || answer.interval === null || areReversed(result, lt1, lt2)) return null;
  return { draws: thresholdDraws(result, lt2), middle: answer.intensity };
}

/** What happened since the tests, from its controls. */
export const sinceTest = (controls: {
  daysSince: Pick<NumberField, 'value'>;
  daysOff: Pick<NumberField, 'value'>;
}): SinceTest => ({
  days: Math.max(0, controls.daysSince.value ?? 0),
  daysWithoutTraining: Math.max(0, controls.daysOff.value ?? 0),
});

/** Days since tests and efforts, or without training. */
const daysField = (label: string, says: string): NumberField =>
  numberField({
    label,
    unit: 'days',
    min: 0,
    max: 3650,
    value: 0,
    about: { says, source: 'Coyle 1984, 1985 (from memory); the sizes are our rule' },
  });

/** Days since the tests; empty counts as none. */
export const daysSinceField = (): NumberField =>
  daysField(
    'Since the tests',
    'The older tests and efforts are, the less is known of today: the ranges widen.',
  );

/** Days without training among them. */
export const daysOffField = (): NumberField =>
  daysField(
    'Of these without training, up to today',
    'A break lowers what can be held: oxygen uptake falls within weeks, the threshold with it.',
  );

/** What heat, hills or thirst take off the hour. */
export const allowanceSlider = (): Slider =>
  slider({
    label: 'Taken off for heat, hills or no drink',
    unit: '%',
    min: 0,
    max: 10,
    step: 1,
    value: 0,
    about: {
      says: 'Is taken off what the tests promise, since they were done in better conditions than the hour may have.',
      source: 'common practice; how much is for you to judge',
    },
  });
