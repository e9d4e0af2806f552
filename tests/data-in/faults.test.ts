import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import type { Sport } from '../../src/base/units.ts';
import { stepTestFromText } from '../../src/data-in/fromText.ts';
import { checkStepTest, readStageTable, readStepTest } from '../../src/data-in/stages.ts';

interface Fault {
  text: string;
  sport?: Sport;
  /** The whole sentence after the place. */
  says: string;
  line: number;
  column?: number;
  field?: string;
}

const STAGES = '100,1.0\n150,1.4\n200,3.1\n';

/** Texts that cannot be read as they stand, with the sentence and place that the reader is told. */
const FAULTS: Record<string, Fault> = {
  'negative lactate': {
    text: 'power,lactate\n100,1.0\n150,-1.4\n',
    says: 'lactate "-1.4" is not possible; expected 0.1 to 35 mmol/L',
    line: 3,
    column: 5,
    field: 'lactate',
  },
  'heart rate 400': {
    text: 'power,HR,lactate\n100,110,1.0\n\n150,400,1.4\n',
    says: 'heart rate "400" is not possible; expected 25 to 250 bpm',
    line: 4,
    column: 5,
    field: 'HR',
  },
  'text in a numeric column': {
    text: 'power,lactate (mmol/L)\n100,1.0\n150,low\n',
    says: '"low" is not a number; expected lactate in mmol/L, such as 1.8',
    line: 3,
    column: 5,
    field: 'lactate (mmol/L)',
  },
  'a lactate below the meter’s range': {
    text: 'power,lactate\n100,<0.5\n',
    says: '"<0.5" lies below what the meter can show; leave it empty, or give the reading if there is one',
    line: 2,
    column: 5,
    field: 'lactate',
  },
  'a number with a mark': {
    text: 'power,HR,lactate\n100,120*,1.0\n',
    says: '"120*" has a mark that is not known here; give the number alone if it stands, or leave it empty',
    line: 2,
    column: 5,
    field: 'HR',
  },
  'a unit that is not the column’s': {
    text: 'power,lactate\n100,1.0\n150 bpm,1.4\n',
    says: '"150 bpm" is not a number; expected power in W, such as 180',
    line: 3,
    column: 1,
    field: 'power',
  },
  'a word every object knows': {
    text: 'power,lactate\n100 constructor,1.0\n',
    says: '"100 constructor" is not a number; expected power in W, such as 180',
    line: 2,
    column: 1,
    field: 'power',
  },
  'two columns of one meaning': {
    text: 'power,lactate,HR,heart rate (bpm)\n100,1.0,110,111\n',
    says: 'two columns for heart rate: "HR" and "heart rate (bpm)"; remove or rename one',
    line: 1,
    column: 18,
    field: 'heart rate (bpm)',
  },
  'no lactate column': {
    text: 'power,HR\n100,110\n',
    says: 'no column of lactate; expected a heading such as lactate (mmol/L)',
    line: 1,
  },
  'no intensity column': {
    text: 'HR,lactate\n100,1.0\n',
    says: 'no column of intensity; expected a heading for power in W, speed in km/h or m/s, a pace or a split /500 m',
    line: 1,
  },
  'intensity without a unit': {
    text: 'intensity,lactate\n100,1.0\n',
    says: '"intensity" does not say its unit; expected power in W, speed in km/h or m/s, a pace or a split /500 m, such as intensity (W)',
    line: 1,
    column: 1,
    field: 'intensity',
  },
  'speed without a unit': {
    text: 'lactate,speed\n1.0,12\n',
    says: '"speed" does not say its unit; expected km/h, m/s or mph in the heading',
    line: 1,
    column: 9,
    field: 'speed',
  },
  'pace without a unit': {
    text: 'pace,lactate\n5:00,1.0\n',
    says: '"pace" does not say its unit; expected min/km, min/mile or /500 m in the heading',
    line: 1,
    column: 1,
    field: 'pace',
  },
  'pace as a decimal': {
    text: 'pace min/km,lactate\n5.30,1.0\n',
    says: '"5.30" is not a pace; expected a pace in min/km, such as 4:30',
    line: 2,
    column: 1,
    field: 'pace min/km',
  },
  'pace with a slip of the key': {
    text: 'pace min/mile,lactate\n6:3O,1.0\n',
    says: '"6:3O" is not a number; expected a pace in min/mile, such as 4:30',
    line: 2,
    column: 1,
    field: 'pace min/mile',
  },
  'a pace that nobody runs': {
    text: 'pace min/km,lactate\n0:40,1.0\n',
    says: 'pace "0:40" is not possible; expected 1:20 to 60:00 min/km',
    line: 2,
    column: 1,
    field: 'pace min/km',
  },
  'power for a runner': {
    text: `power,lactate\n${STAGES}`,
    sport: 'running',
    says: 'no column of intensity for running; expected a heading for speed (km/h, m/s) or pace (min/km, min/mile), or another sport chosen for the athlete',
    line: 1,
  },
  'speed for a cyclist': {
    text: 'km/h,lactate\n30,1.0\n',
    sport: 'cycling',
    says: 'no column of intensity for cycling; expected a heading for power in W, or another sport chosen for the athlete',
    line: 1,
  },
  'lactate in another unit': {
    text: 'power,lactate (g/L)\n100,9\n',
    says: '"g/l" is not a unit of lactate known here; expected mmol/L or mg/dL',
    line: 1,
    column: 7,
    field: 'lactate (g/L)',
  },
  'lactate in milligrams that is not said to be': {
    text: 'power,lactate\n100,41.4\n',
    says: 'lactate "41.4" is not possible; expected 0.1 to 35 mmol/L; if this is mg/dL, say so in the heading',
    line: 2,
    column: 5,
    field: 'lactate',
  },
  'an impossible value in the unit of its column': {
    text: 'power,lactate (mg/dL)\n100,0.5\n',
    says: 'lactate "0.5" is not possible; expected 0.91 to 315 mg/dL',
    line: 2,
    column: 5,
    field: 'lactate (mg/dL)',
  },
  'decimals or thousands': {
    text: 'power;lactate\n100;1,234\n',
    says: '"1,234" can be read as 1.234 or as 1234; write it with another number of decimals or without separators; expected lactate in mmol/L, such as 1.8',
    line: 2,
    column: 5,
    field: 'lactate',
  },
  'decimal commas between commas': {
    text: 'power,lactate\n100,1,0\n',
    says: '3 entries, but there are 2 headings; numbers with a decimal comma need semicolons or tabs between them',
    line: 2,
  },
  'duration in minutes or seconds': {
    text: 'power,duration,lactate\n100,240,1.0\n',
    says: '"240" may be minutes or seconds; expected a unit in the heading, such as duration (min)',
    line: 2,
    column: 5,
    field: 'duration',
  },
  'hours read from a spreadsheet': {
    text: 'power,duration,lactate\n100,4:00:00,1.0\n',
    says: 'duration "4:00:00" is not possible; expected 5 s to 60 min',
    line: 2,
    column: 5,
    field: 'duration',
  },
  'duration in words': {
    text: 'power,duration,lactate\n100,short,1.0\n',
    says: '"short" is not a number; expected duration in min, such as 4, 4:00 or 240 s',
    line: 2,
    column: 5,
    field: 'duration',
  },
  'a time for a heart rate': {
    text: 'power,HR,lactate\n100,1:50,1.0\n',
    says: '"1:50" is a time; expected heart rate in bpm, such as 152',
    line: 2,
    column: 5,
    field: 'HR',
  },
  'a stage without its intensity': {
    text: 'power,lactate\n100,1.0\n,1.4\n',
    says: 'no intensity; expected one for every stage, or the word rest or recovery',
    line: 3,
    column: 1,
    field: 'power',
  },
  'zero in the middle': {
    text: 'power,lactate\n100,1.0\n0,1.4\n',
    says: 'power "0" is not possible; expected 1 to 2500 W',
    line: 3,
    column: 1,
    field: 'power',
  },
  'rest with an intensity': {
    text: 'stage,power,lactate\nrest,100,1.0\n1,150,1.4\n',
    says: 'marked as rest but with an intensity of "100"; expected none or 0 for the sample at rest',
    line: 2,
    column: 6,
    field: 'power',
  },
  'two samples at rest': {
    text: 'stage,power,lactate\nrest,,1.0\nrest,,1.1\n1,150,1.4\n',
    says: 'a second sample at rest; expected one row marked rest',
    line: 3,
    column: 7,
    field: 'lactate',
  },
  'several athletes': {
    text: 'subject,power,lactate\nA,100,1.0\nA,150,1.2\nB,100,1.2\n',
    says: '"subject" tells 2 tests apart; expected the stages of one test',
    line: 1,
    column: 1,
    field: 'subject',
  },
  'two tables one below the other': {
    text: `power,lactate\n${STAGES}power,lactate\n${STAGES}`,
    says: '"power" is not a number; expected power in W, such as 180',
    line: 5,
    column: 1,
    field: 'power',
  },
  'two body masses': {
    text: 'power,lactate,mass\n100,1.0,70\n150,1.4,71\n',
    says: 'more than one body mass; expected the same in every row',
    line: 1,
    column: 15,
    field: 'mass',
  },
  'no stages': {
    text: 'power,lactate\n',
    says: 'no stages; expected a row for each stage below the headings',
    line: 1,
  },
  'no lactates': {
    text: 'power,lactate\n100,-\n150,-\n',
    says: 'no lactate in any stage; expected at least one number',
    line: 1,
    column: 7,
    field: 'lactate',
  },
  'no headings': {
    text: STAGES,
    says: 'no row of headings found; expected headings such as power (W), heart rate (bpm), lactate (mmol/L)',
    line: 1,
  },
  'nothing at all': {
    text: '',
    says: 'no row of headings found; expected headings such as power (W), heart rate (bpm), lactate (mmol/L)',
    line: 1,
  },
};

function thrownBy(run: () => unknown): InputError {
  try {
    run();
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return error as InputError;
  }
  return expect.unreachable('nothing was thrown');
}

describe('a text that cannot be read', () => {
  test.each(Object.entries(FAULTS))('%s', (_, { text, sport, says, line, column, field }) => {
    const { message, place } = thrownBy(() => stepTestFromText(text, { file: 'test.csv', sport }));
    expect(place).toMatchObject({
      file: 'test.csv',
      line,
      ...(column && { column }),
      ...(field && { field }),
    });
    expect(message).toMatch(/^test\.csv, line /);
    expect(message.endsWith(`: ${says}`)).toBe(true);
    const where = message.slice(0, -says.length - 2);
    expect(where).toContain(`line ${line}`);
    if (column) expect(where).toMatch(new RegExp(`character ${column}, field [1-9]`));
  });

  test('no sentence runs over one line or ends in a full stop', () => {
    for (const { says } of Object.values(FAULTS)) expect(says).not.toMatch(/\n|\.$/);
  });
});

describe('a table on the page', () => {
  const grid = {
    headings: ['power (W)', 'HR', 'lactate'],
    rows: [
      ['100', '110', '1.0'],
      ['150', '400', 'x'],
      ['', '150', '2.0'],
    ],
  };

  test('a pace without a unit is told once, and not of every entry', () => {
    const paces = {
      headings: ['pace', 'lactate'],
      rows: [
        ['6:00', '1.2'],
        ['5:00', '3.1'],
      ],
    };
    const problems = checkStepTest(paces).filter(({ tone }) => tone === 'problem');
    expect(problems).toEqual([
      { row: -1, column: 0, tone: 'problem', text: expect.stringContaining('does not say its unit') },
    ]);
  });

  test('the check marks every problem where it stands, and tells what was decided', () => {
    expect(checkStepTest(grid)).toEqual([
      { row: -1, column: 0, tone: 'note', text: expect.stringContaining('taken as cycling') },
      { row: 1, column: 2, tone: 'problem', text: expect.stringContaining('"x" is not a number') },
      { row: 1, column: 1, tone: 'problem', text: expect.stringContaining('heart rate "400"') },
      { row: 2, column: 0, tone: 'problem', text: expect.stringContaining('no intensity') },
    ]);
  });

  test('the import refuses with the first problem in reading order, by row and heading', () => {
    const { message, place } = thrownBy(() => readStepTest(grid));
    expect(message).toBe('row 2, "HR": heart rate "400" is not possible; expected 25 to 250 bpm');
    expect(place).toEqual({ row: 1, field: 'HR' });
  });

  test('an empty table to be filled in has one problem', () => {
    const empty = { headings: ['power (W)', 'lactate'], rows: [['', '']] };
    expect(checkStepTest(empty, { sport: 'cycling' }).map((mark) => mark.text)).toEqual([
      'no stages; expected a row for each stage below the headings',
    ]);
  });

  test('a good table has none', () => {
    expect(checkStepTest(readStageTable(`power,lactate\n${STAGES}`), { sport: 'cycling' })).toEqual([]);
  });
});

test('more stages than any test has are refused for their number alone', () => {
  const rows = Array.from({ length: 201 }, (_, i) => [String(100 + i), '1.0']);
  const table = { headings: ['power', 'lactate'], rows };
  expect(checkStepTest(table).map(({ text }) => text)).toContain(
    '201 stages; expected at most 200, a row for each stage of one test',
  );
  expect(() => readStepTest(table)).toThrow(/201 stages/);
  expect(readStepTest({ ...table, rows: rows.slice(1) }).stages).toHaveLength(200);
});
