import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import type { HeadingsSaid } from '../../src/base/grid.ts';
import { COLUMN_KINDS } from '../../src/data-in/columnKinds.ts';
import { decodeText } from '../../src/data-in/decode.ts';
import { readEfforts } from '../../src/data-in/efforts.ts';
import { columnsTaken } from '../../src/data-in/mapping.ts';
import { readPairs } from '../../src/data-in/pairs.ts';
import { readRecovery } from '../../src/data-in/recovery.ts';
import { readSession } from '../../src/data-in/session.ts';
import { readStepTest } from '../../src/data-in/stages.ts';
import { accountOf, bringTable, corrected } from '../../src/toolkit/broughtTable.ts';
import type { RowsRead } from '../../src/view/controls.ts';

const folder = new URL('files/corrected/', import.meta.url);

/** What somebody says of columns, by their number: a word, perhaps with a unit; null for not used. */
type Said = [column: number, word: string | null, unit?: string][];

function brought(name: string, rows: RowsRead, headings?: HeadingsSaid) {
  return bringTable({ text: decodeText(readFileSync(new URL(name, folder))), name }, rows, headings);
}

function afterCorrection(name: string, rows: RowsRead, said: Said, headings?: HeadingsSaid) {
  const { value, source } = brought(name, rows, headings);
  return said.reduce(
    (table, [column, word, unit]) =>
      corrected(table, rows, {
        column,
        use: word === null ? null : { word, ...(unit !== undefined && { unit }) },
        sources: source.headings,
      }),
    value,
  );
}

interface Expected {
  /** Why it cannot be read as it is, or what it is wrongly read as. */
  before: RegExp;
  /** Where somebody says that the headings are. */
  headings?: HeadingsSaid;
  said: Said;
  account: string;
  axis?: 'power' | 'speed';
  x: number[];
  lactate: number[];
  heartRate: (number | null)[];
  rpe?: number[];
  minutes?: number[];
  rest?: number;
}

const NO_INTENSITY = /no column of intensity/;

/** What each file says, written down from the file by hand. */
const STAGES: Record<string, Expected> = {
  'foreign-headings.csv': {
    before: NO_INTENSITY,
    said: [
      [1, 'power'],
      [2, 'heart rate'],
      [3, 'lactate'],
    ],
    account: 'Read: 4 stages and the sample at rest, from 5 rows.',
    x: [100, 130, 160, 190],
    lactate: [1, 1.2, 1.9, 3.6],
    heartRate: [112, 124, 139, 153],
    rpe: [8, 10, 13, 16],
    rest: 1.1,
  },
  'foreign-headings-with-units.csv': {
    before: /^Read: 4 stages/, // by their units
    said: [
      [1, null],
      [4, 'power'],
    ],
    account: 'Read: 4 stages, from 4 rows.',
    x: [131, 163, 195, 228],
    lactate: [1.1, 1.4, 2.6, 5.2],
    heartRate: [118, 131, 146, 160],
  },
  'two-heart-rates.csv': {
    before: /two columns for heart rate: "HR mean" and "HR end"/,
    said: [[1, null]],
    account: 'Read: 4 stages, from 4 rows.',
    x: [100, 140, 180, 220],
    lactate: [1, 1.3, 2.2, 4.4],
    heartRate: [112, 127, 144, 160],
  },
  'metres-per-second-not-said.txt': {
    before: /"speed" does not say its unit/,
    said: [[1, 'speed', 'm/s']],
    account: 'Read: 4 stages, from 4 rows.',
    axis: 'speed',
    // 3.6 km/h are 1 m/s.
    x: [10.08, 11.52, 12.96, 14.4],
    lactate: [1.2, 1.6, 2.9, 5.6],
    heartRate: [131, 144, 158, 170],
  },
  'minutes-and-seconds.csv': {
    before: /^Read: 4 stages/, // without the lengths of the stages and the heart rates
    said: [
      [0, 'duration'],
      [2, 'heart rate'],
    ],
    account: 'Read: 4 stages, from 4 rows.',
    x: [100, 140, 180, 220],
    lactate: [1, 1.4, 2.4, 5.1],
    heartRate: [110, 128, 147, 163],
    minutes: [5, 5, 5, 3 + 40 / 60],
  },
  'mean-and-peak-power.csv': {
    before: /^Read: 4 stages/, // from the mean power, as its unit says
    said: [[2, 'power']],
    account: 'Read: 4 stages, from 4 rows.',
    x: [141, 203, 262, 317],
    lactate: [1.1, 1.5, 2.8, 6],
    heartRate: [109, 128, 149, 167],
  },
  'no-headings.csv': {
    before: NO_INTENSITY,
    said: [
      [0, 'stage'],
      [1, 'power'],
      [2, 'heart rate'],
      [3, 'lactate'],
    ],
    account: 'Read: 4 stages, from 4 rows.',
    x: [100, 150, 200, 250],
    lactate: [1, 1.4, 3.1, 5.8],
    heartRate: [110, 131, 155, 172],
  },
  'no-headings-set-with-spaces.txt': {
    before: NO_INTENSITY,
    said: [
      [0, 'stage'],
      [1, 'speed', 'km/h'],
      [2, 'heart rate'],
      [3, 'lactate'],
    ],
    account: 'Read: 4 stages and the sample at rest, from 5 rows.',
    axis: 'speed',
    x: [9, 10.5, 12, 13.5],
    lactate: [1.2, 1.5, 2.7, 5.5],
    heartRate: [128, 141, 156, 171],
    rest: 1.3,
  },
  'seconds-per-kilometre.csv': {
    before: NO_INTENSITY,
    said: [
      [0, 'pace', 's/km'],
      [1, 'heart rate'],
      [2, 'lactate'],
    ],
    account: 'Read: 3 stages, from 3 rows.',
    axis: 'speed',
    // 3600 s divided by the pace.
    x: [12, 3600 / 270, 15],
    lactate: [1.3, 1.7, 3.4],
    heartRate: [128, 143, 160],
  },
  'results-above.csv': {
    before: /"Belastung" is not a number/, // the results for headings and stages
    headings: 5,
    said: [
      [1, 'power'],
      [2, 'heart rate'],
      [3, 'lactate'],
    ],
    account: 'Read: 4 stages, from 4 rows.',
    x: [100, 130, 160, 190],
    lactate: [1, 1.2, 1.9, 3.6],
    heartRate: [112, 124, 139, 153],
  },
  'legend-above.csv': {
    before: /line 5: 5 entries, but there are 2 headings/, // the legend for headings
    headings: 5,
    said: [
      [1, 'power'],
      [3, 'lactate'],
    ],
    account: 'Read: 3 stages and the sample at rest, from 4 rows.',
    x: [100, 150, 200],
    lactate: [1, 1.4, 3.1],
    heartRate: [110, 131, 155],
    rpe: [8, 11, 15],
    rest: 1.1,
  },
  'labels-in-each-row.csv': {
    before: /"Power" is not a number/, // the first stage for headings
    headings: 'none',
    said: [
      [2, 'power'],
      [4, 'heart rate'],
      [6, 'lactate'],
    ],
    account: 'Read: 4 stages, from 4 rows.',
    x: [100, 150, 200, 250],
    lactate: [1, 1.4, 3.1, 5.8],
    heartRate: [110, 131, 155, 172],
  },
  'names-above-units.csv': {
    before: /two columns for lactate: "mmol\/l" and "mmol\/l"/, // the units for headings
    headings: 1,
    said: [
      [2, 'heart rate'],
      [3, 'lactate'],
    ],
    account: 'Read: 4 stages, from 4 rows.',
    x: [100, 150, 200, 250],
    lactate: [1, 1.4, 3.1, 5.8],
    heartRate: [110, 131, 155, 172],
  },
  'two-heading-lines.csv': {
    before: /two columns for power: "Load" and "Load"/,
    headings: 2,
    said: [
      [0, 'duration'],
      [2, 'power'],
      [4, 'heart rate'],
      [5, 'lactate'],
    ],
    account: 'Read: 4 stages, from 4 rows.',
    x: [104, 152, 201, 253],
    lactate: [1, 1.4, 3.1, 5.8],
    heartRate: [112, 131, 155, 172],
    minutes: [4, 4, 4, 4],
  },
};

test('another line of headings is said where no correction of columns helps', () => {
  for (const name of ['results-above.csv', 'labels-in-each-row.csv', 'two-heading-lines.csv']) {
    const rows: RowsRead = { of: 'stages' };
    const { said, account } = STAGES[name]!;
    expect(reading(() => accountOf(afterCorrection(name, rows, said), rows))).not.toBe(account);
  }
});

const OTHERS = ['reps-foreign.csv', 'efforts-foreign.csv', 'recovery-in-seconds.csv', 'pairs-of-meters.csv'];

test('every file has an expected reading', () => {
  expect(readdirSync(folder).sort()).toEqual([...Object.keys(STAGES), ...OTHERS].sort());
});

const reading = (run: () => string): string => {
  try {
    return run();
  } catch (error) {
    return (error as Error).message;
  }
};

test.each(Object.entries(STAGES))('%s', (name, expected) => {
  const rows: RowsRead = { of: 'stages' };
  expect(reading(() => accountOf(brought(name, rows).value, rows))).toMatch(expected.before);
  const table = afterCorrection(name, rows, expected.said, expected.headings);
  const read = readStepTest(table);
  expect(accountOf(table, rows)).toBe(expected.account);
  expect(read.axis).toBe(expected.axis ?? 'power');
  expect(read.stages).toHaveLength(expected.x.length);
  for (const [i, stage] of read.stages.entries()) expect(stage.intensity).toBeCloseTo(expected.x[i]!, 9);
  expect(read.stages.map(({ lactate }) => lactate)).toEqual(expected.lactate);
  expect(read.stages.map(({ heartRate }) => heartRate)).toEqual(expected.heartRate);
  if (expected.rpe) expect(read.stages.map(({ rpe }) => rpe)).toEqual(expected.rpe);
  if (expected.minutes) expect(read.stages.map(({ minutes }) => minutes)).toEqual(expected.minutes);
  expect(read.restLactate).toBe(expected.rest ?? null);
});

describe('other tables', () => {
  test('reps', () => {
    const table = afterCorrection('reps-foreign.csv', { of: 'reps' }, [
      [0, 'rep'],
      [1, 'pace', 'min/km'],
      [3, 'lactate'],
      [4, 'heart rate'],
    ]);
    const { reps } = readSession(table);
    expect(reps.map(({ intensity }) => intensity)).toEqual([15, 15, expect.closeTo(3600 / 235, 9)]);
    expect(reps.flatMap(({ readings }) => readings.map(({ lactate }) => lactate))).toEqual([2.1, 2.6, 3]);
    expect(accountOf(table, { of: 'reps' })).toBe('Read: 3 reps with 3 lactate samples, from 3 rows.');
  });

  test('best efforts, of two powers the mean', () => {
    const rows: RowsRead = { of: 'efforts', sport: 'cycling' };
    const table = afterCorrection('efforts-foreign.csv', rows, [
      [0, 'time'],
      [1, 'power'],
    ]);
    expect(readEfforts(table).efforts.map(({ seconds, intensity }) => [seconds, intensity])).toEqual([
      [180, 402],
      [720, 331],
      [1200, 309],
    ]);
    expect(accountOf(table, rows)).toBe('Read: 3 efforts, from 3 rows.');
  });

  test('recovery samples in seconds', () => {
    const table = afterCorrection('recovery-in-seconds.csv', { of: 'recovery' }, [
      [0, 'minute', 's'],
      [1, 'lactate'],
    ]);
    expect(readRecovery(table).samples.map(({ minute, lactate }) => [minute, lactate])).toEqual([
      [1, 9.2],
      [3, 9.8],
      [5, 9.1],
    ]);
  });

  test('pairs; a row with one value is left out and told', () => {
    const table = afterCorrection('pairs-of-meters.csv', { of: 'pairs' }, [
      [0, 'first'],
      [1, 'second'],
    ]);
    expect(readPairs(table)).toMatchObject({ first: [1.2, 2.8, 6.1], second: [1.3, 2.6, 6.4] });
    expect(accountOf(table, { of: 'pairs' })).toBe(
      'Read: 3 pairs, from 4 rows. Left out: row 3 (one value only).',
    );
    expect(columnsTaken(table, COLUMN_KINDS.pairs)[2]!.use).toBeNull();
  });
});
