import { formatNumber } from '../base/format.ts';
import type { DisplayUnit, Sport } from '../base/units.ts';
import { BENCH, type ErrorModel, HANDHELD } from '../physiology/errorModel.ts';
import { HARDEST_STAGE } from '../physiology/plausible.ts';
import type { LastStage } from '../physiology/stepTest.ts';
import {
  type Choice,
  choice,
  type Explanation,
  type NumberField,
  numberField,
  type TextField,
  textField,
} from '../view/controls.ts';
import type { Display } from './display.ts';

/** What each option is called. */
export type Labels<T extends string> = Record<T, string>;

/** A choice whose options are the keys of `labels`. */
export function choiceOf<T extends string>(
  label: string,
  value: T,
  labels: Labels<T>,
  about: Explanation,
): Choice<T> {
  const options = (Object.keys(labels) as T[]).map((option) => ({ value: option, label: labels[option] }));
  return choice({ label, value, options, about });
}

/** Who was tested; empty for nobody in particular. */
export const athleteField = (value: string): TextField =>
  textField({
    label: 'Athlete',
    value,
    help: 'A code is safer than a name.',
    about: {
      says: 'Stands before the short answer and goes on the share page, unless you leave it out there.',
      source: 'our rule',
    },
  });

/** Body mass, for W/kg; may stay empty. */
export const bodyMassField = (value: number | null): NumberField =>
  numberField({
    label: 'Body mass',
    unit: 'kg',
    min: 20,
    max: 250,
    value,
    about: {
      says: 'Turns watts into W/kg and is needed for the energy an hour takes; no threshold depends on it.',
      source: 'common practice',
    },
  });

/** How long a stage was planned to be. */
export const stageMinutesField = (value: number | null): NumberField =>
  numberField({
    label: 'Stage length',
    unit: 'min',
    min: 0.5,
    max: 30,
    value,
    help: 'Empty: the usual duration in the table.',
    about: {
      says: 'How long a stage was meant to last: a last stage that was shorter counts as unfinished, and lactate lags more in short stages.',
      source: 'common practice: 3 to 5 min',
    },
  });

/** An intensity to plan with; empty at first. */
export const intensityField = (label: string, { axis, unit, lo, hi }: Display): NumberField =>
  numberField({
    label,
    unit,
    min: 0,
    max: HARDEST_STAGE[axis],
    step: axis === 'power' ? 1 : 0.1,
    value: null,
    help: `This test speaks of ${formatNumber(lo, 0)} to ${formatNumber(hi, 0)} ${unit}.`,
    about: {
      says: 'An intensity you have in mind: below stands the chance that it lies under, between or above the thresholds.',
      source: 'our rule: the share of the draws; empty takes 3 % above the second threshold',
    },
  });

/** Which sport: it decides the unit of intensity. */
export const sportChoice = (value: Sport): Choice<Sport> =>
  choiceOf(
    'Sport',
    value,
    { cycling: 'cycling (W)', running: 'running (km/h)', rowing: 'rowing (W)' },
    {
      says: 'Decides what intensity is measured in: the table below must hold power in W, or speed or pace.',
      source: 'common practice',
    },
  );

/** Unit shown beside the speed of a running test. */
export const paceChoice = (value: DisplayUnit): Choice<DisplayUnit> =>
  choiceOf<DisplayUnit & ('min/km' | 'min/mile' | 'm/s')>(
    'Speeds also shown in',
    value as 'min/km',
    { 'min/km': 'min/km', 'min/mile': 'min/mile', 'm/s': 'm/s' },
    {
      says: 'Stands beside every speed: thresholds are found on speed and only then turned into a pace.',
      source: 'our rule: pace is not even along the axis, so nothing is read between two paces',
    },
  ) as Choice<DisplayUnit>;

type Effort = 'yes' | 'no' | 'unknown';

/** Whether the athlete went to exhaustion: some methods need it. */
export const effortChoice = (value: Effort): Choice<Effort> =>
  choiceOf(
    'Went to exhaustion',
    value,
    { yes: 'yes', no: 'no', unknown: 'told from the last stage' },
    {
      says: 'Methods that use the end of the test give no answer when it was stopped early; the last stage tells by its lactate and RPE.',
      source: 'common practice',
    },
  );

/** As `usableReadings` wants it: true, false, or undefined where the last stage has to tell. */
export const wentToExhaustion = (effort: Effort): boolean | undefined =>
  effort === 'unknown' ? undefined : effort === 'yes';

/** What to do with a last stage that was not finished. */
export const lastStageChoice = (value: LastStage): Choice<LastStage> =>
  choiceOf(
    'A last stage that was not finished',
    value,
    {
      credited: 'counts for the part that was done',
      dropped: 'is left out',
      nominal: 'counts as if finished',
    },
    {
      says: 'Counted in part, half of a 30 W step adds 15 W; a stage that was done less than half is left out in any case.',
      source: 'common practice; the limit of one half is our rule',
    },
  );

/** Kinds of meter with what each may be off by. */
const METERS = {
  handheld: { name: 'handheld meter', error: HANDHELD },
  bench: { name: 'laboratory analyser', error: BENCH },
} as const;
/** One of `METERS`. */
export type Meter = keyof typeof METERS;

/** What lactate was measured with; sets where the error controls start. */
export const meterChoice = (value: Meter): Choice<Meter> =>
  choiceOf(
    'Lactate measured with',
    value,
    { handheld: METERS.handheld.name, bench: METERS.bench.name },
    {
      says: 'Sets how large the errors are that the figures start with; each can be set on its own further down.',
      source:
        'Mentzoni 2024, Eur J Appl Physiol (abstract), for handheld meters; the rest stands with each error',
    },
  );

/** The usual errors of a kind of meter. */
export const usualErrors = (meter: Meter): ErrorModel => METERS[meter].error;
