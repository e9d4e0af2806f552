import { type GridValue, isEmpty } from '../base/grid.ts';
import {
  checkSession,
  readSession,
  readSessionTable,
  SESSION_HEADINGS,
  type SessionOptions,
  SIGN_NAMES,
} from '../data-in/session.ts';
import type { Session, SessionContext } from '../physiology/training/session.ts';
import type { Verdict } from '../physiology/training/sessionDecision.ts';
import { type Choice, type NumberField, numberField } from '../view/controls.ts';
import { choiceOf } from './choices.ts';
import { type BoutGridSpec, INTENSITY_HEADINGS, sportOption, tableGrid } from './stages.ts';
import type { StartedGrid } from './whoseData.ts';

/** An editable table of reps that also takes a pasted, dropped or picked CSV or TSV file. */
export const sessionGrid = ({
  label = 'Reps',
  help = `A row for each rep, or for each reading of a rep. Leave empty what was not measured. Signs: ${SIGN_NAMES.join(', ')}.`,
  csv,
  sport,
}: BoutGridSpec): StartedGrid => {
  return tableGrid(label, help, csv, {
    read: readSessionTable,
    check: (value) => (isEmpty(value) ? [] : checkSession(value, sportOption(sport))),
    suggestions: [...SESSION_HEADINGS, ...INTENSITY_HEADINGS[sport ?? 'cycling']],
    recording: 'reps',
    rows: { of: 'reps', ...sportOption(sport) },
    about: {
      says: 'What was measured in each repetition: intensity, lactate level and drift are judged apart, then together.',
      source: 'the rule that decides stands with the verdict',
    },
  });
};

/**
 * The session in a table of reps; null while no rep is entered.
 *
 * Throws    InputError for what cannot be read
 */
export const sessionIn = (value: GridValue, options: SessionOptions = {}): Session | null =>
  isEmpty(value) ? null : readSession(value, options);

/** Time between reps. */
export const restField = (value: number | null): NumberField =>
  numberField({
    label: 'Rest between reps',
    unit: 'min',
    min: 0,
    max: 30,
    step: 0.5,
    value,
    about: {
      says: 'Lactate falls while the athlete rests: the next session keeps this rest, and the limits of its readings allow for it.',
      source: 'our rule',
    },
  });

/** The athlete's own lactate at the steady state; null where it was never measured. */
export const steadyLactateField = (value: number | null): NumberField =>
  numberField({
    label: 'Lactate at the steady state, if measured in bouts',
    unit: 'mmol/L',
    min: 0.5,
    max: 15,
    step: 0.1,
    value,
    about: {
      says: 'Lactate at the maximal lactate steady state differs widely between athletes; a measured one takes the place of the usual range.',
      source: '4.9 ± 1.4 mmol/L in people: Beneke 2000 (abstract)',
    },
  });

/** What the athlete did between reps: lactate falls faster on the move. */
export const betweenRepsChoice = (value: SessionContext['rest']): Choice<SessionContext['rest']> =>
  choiceOf(
    'Between reps',
    value,
    { active: 'moved easily', passive: 'stood or sat' },
    {
      says: 'Lactate falls about twice as fast on the move, so a reading after a walked rest is lower.',
      source: 'common practice',
    },
  );

/** How many more reps would have been possible, as it can be chosen. */
export type Reserve = 'unknown' | 'none' | 'one or two' | 'three or more';

/** How many more reps would have been possible at the end. */
export const reserveChoice = (value: Reserve): Choice<Reserve> =>
  choiceOf(
    'More such reps would have been possible',
    value,
    { unknown: 'not asked', none: 'none', 'one or two': 'one or two', 'three or more': 'three or more' },
    {
      says: 'After a good threshold session three or four more would have been possible; none is a sign that it lay too high.',
      source: 'common practice',
    },
  );

const RESERVES: Record<Reserve, number | null> = {
  unknown: null,
  none: 0,
  'one or two': 1,
  'three or more': 3,
};

/** How an earlier session was judged, as it can be chosen. */
export type Before = 'none' | 'above' | 'at' | 'below';

/** How the session before the last one was judged. */
export const beforeChoice = (value: Before): Choice<Before> =>
  choiceOf(
    'The session before that was',
    value,
    {
      none: 'not reviewed',
      above: 'above the second threshold',
      at: 'at or just under it',
      below: 'below it and easy',
    },
    {
      says: 'One session is weak evidence: intensity goes up only after two that were below and easy.',
      source: 'our rule',
    },
  );

/** The same as a verdict; null when there was none. */
export const verdictBefore = (before: Before): Verdict | null => (before === 'none' ? null : before);

/** What happened around the reps, from its controls. */
export const sessionContext = (controls: {
  restMinutes: { value: number | null };
  between: { value: SessionContext['rest'] };
  reserve: { value: Reserve };
}): SessionContext => ({
  restMinutes: controls.restMinutes.value ?? 2,
  rest: controls.between.value,
  reserve: RESERVES[controls.reserve.value],
});
