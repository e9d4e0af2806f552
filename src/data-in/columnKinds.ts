import { COMPLETED_NAMES } from './bouts.ts';
import { KIND_NAMES } from './efforts.ts';
import { FIRST_NAMES, SECOND_NAMES } from './pairs.ts';
import type { Meaning } from './quantities.ts';
import { MODE_NAMES } from './recovery.ts';
import { LENGTH_NAMES, REP_NAMES, SIGNS_NAMES } from './session.ts';
import { TEST_NAMES } from './testNames.ts';
import { GOAL_NAMES, SESSION_NAMES } from './trainingList.ts';

/** Something that a column of one kind of table may be said to hold. */
export interface ColumnKind {
  /** As a reader is offered it. */
  word: string;
  /** The heading that says so, by unit; '' for none, or for one that is still to be said. */
  headings: Readonly<Record<string, string>>;
  /** What a heading may mean to be taken for this. */
  meanings: readonly Meaning[];
  /** Headings in words of its own; they go before meanings. */
  names?: RegExp;
  /** Several columns may hold it. */
  several?: true;
}

const inUnits = (stem: string, ...units: string[]): Record<string, string> =>
  Object.fromEntries(units.map((unit) => [unit, `${stem} (${unit})`]));

const measured = (word: string, meaning: Meaning, headings: Record<string, string>): ColumnKind => ({
  word,
  headings,
  meanings: [meaning],
});

/** A column of words or labels. */
const named = (word: string, names: RegExp): ColumnKind => ({
  word,
  headings: { '': word },
  meanings: [],
  names,
});

const stage: ColumnKind = { ...measured('stage', 'stage', { '': 'stage' }), several: true };
const remark: ColumnKind = { ...measured('remark', 'remark', { '': 'remark' }), several: true };
const power = measured('power', 'power', inUnits('power', 'W'));
const speed = measured('speed', 'speed', {
  '': 'speed',
  ...inUnits('speed', 'km/h', 'm/s', 'm/min', 'mph'),
});
const pace = measured('pace', 'pace', {
  '': 'pace',
  ...inUnits('pace', 'min/km', 's/km', 'min/mile'),
  'min/500 m': 'split (/500 m)',
  's/500 m': 'split (s/500 m)',
});
const lactate = measured('lactate', 'lactate', inUnits('lactate', 'mmol/L', 'mg/dL'));
const heartRate = measured('heart rate', 'heartRate', inUnits('heart rate', 'bpm'));
const exertion = measured('RPE', 'rpe', { '': 'RPE', ...inUnits('RPE', '6-20', 'CR10') });
const mass = measured('body mass', 'mass', inUnits('body mass', 'kg', 'lb'));
const distance = measured('distance', 'distance', {
  '': 'distance',
  ...inUnits('distance', 'm', 'km', 'mile'),
});
const oxygenUptake = measured('oxygen uptake', 'oxygenUptake', {
  '': 'oxygen uptake',
  ...inUnits('oxygen uptake', 'ml/min', 'L/min', 'ml/min/kg'),
});
const duration = measured('duration', 'duration', { '': 'duration', ...inUnits('duration', 'min', 's') });
const time: ColumnKind = {
  ...measured('time', 'duration', { '': 'time', ...inUnits('time', 'min', 's') }),
  meanings: ['duration', 'minute'],
};
const minute: ColumnKind = {
  word: 'minute',
  headings: { min: 'minute', s: 'time after (s)' },
  meanings: ['minute', 'duration'],
};
/** What tells the tests of several athletes or days apart. */
const testName: ColumnKind = {
  ...named('athlete or date', TEST_NAMES),
  headings: { '': 'athlete' },
  several: true,
};
const intensities = [power, speed, pace];

/** What the columns of each kind of table may hold, in the order that they are offered in. */
export const COLUMN_KINDS = {
  stages: [
    stage,
    ...intensities,
    heartRate,
    lactate,
    exertion,
    duration,
    oxygenUptake,
    mass,
    remark,
    testName,
  ],
  reps: [
    named('rep', REP_NAMES),
    ...intensities,
    { ...duration, meanings: [], names: LENGTH_NAMES },
    minute,
    heartRate,
    lactate,
    exertion,
    named('signs', SIGNS_NAMES),
  ],
  efforts: [time, ...intensities, distance, named('kind', KIND_NAMES)],
  training: [named('session', SESSION_NAMES), time, ...intensities, heartRate, named('goal', GOAL_NAMES)],
  bouts: [...intensities, minute, lactate, named('completed', COMPLETED_NAMES)],
  recovery: [minute, lactate, named('mode', MODE_NAMES)],
  pairs: [named('first', FIRST_NAMES), named('second', SECOND_NAMES)],
} as const satisfies Record<string, readonly ColumnKind[]>;
