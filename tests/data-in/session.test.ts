import { describe, expect, test } from 'vitest';
import type { GridValue } from '../../src/base/grid.ts';
import { InputError } from '../../src/base/inputError.ts';
import { checkSession, readSession } from '../../src/data-in/session.ts';
import { sessionFromText } from './texts.ts';

const message = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return (error as InputError).message;
  }
  return expect.unreachable('nothing was thrown');
};

const TABLE = `# seen
rep,duration (min),power (W),minute,lactate (mmol/L),heart rate (bpm),RPE (6-20),signs
1,8:00,290,8,3.9,166,13,
2,8:00,290,4,4.4,165,,
2,,,8,5.2,170,14,nausea; tingling
3,7:30,290,7.5,6.1,174,15,could not finish
`;

describe('a table of reps', () => {
  test('a row for each reading; what holds for a rep may stand once', () => {
    const session = sessionFromText(TABLE);
    expect(session).toMatchObject({ sport: 'cycling', axis: 'power', exertionScale: '6-20' });
    expect(session.reps).toEqual([
      {
        number: 1,
        intensity: 290,
        minutes: 8,
        signs: [],
        readings: [{ row: 0, minute: 8, lactate: 3.9, heartRate: 166, rpe: 13 }],
      },
      {
        number: 2,
        intensity: 290,
        minutes: 8,
        signs: ['nausea', 'tingling'],
        readings: [
          { row: 1, minute: 4, lactate: 4.4, heartRate: 165, rpe: null },
          { row: 2, minute: 8, lactate: 5.2, heartRate: 170, rpe: 14 },
        ],
      },
      {
        number: 3,
        intensity: 290,
        minutes: 7.5,
        signs: ['could not finish'],
        readings: [{ row: 3, minute: 7.5, lactate: 6.1, heartRate: 174, rpe: 15 }],
      },
    ]);
    expect(session.notes.join(' ')).toMatch(/seen.*taken as cycling/);
  });

  test('pace, decimal commas, seconds, other names', () => {
    const session = sessionFromText(
      'interval;pace (min/km);time (s);La;pulse;Borg CR10\n1;5:00;480;3,1;160;4\n2;5:00;480;3,3;163;5\n',
    );
    expect(session).toMatchObject({ sport: 'running', axis: 'speed', exertionScale: 'CR10' });
    expect(session.reps.map((rep) => [rep.intensity, rep.minutes, rep.readings[0]!.lactate])).toEqual([
      [12, 8, 3.1],
      [12, 8, 3.3],
    ]);
  });

  test('with a length alone readings were taken at the end; no lactate is needed', () => {
    const { reps } = sessionFromText('rep,speed (km/h),duration (min),RPE\n1,12,10,4\n2,12,10,5\n');
    expect(reps.map((rep) => rep.readings[0])).toMatchObject([
      { minute: 10, lactate: null, rpe: 4 },
      { minute: 10, lactate: null, rpe: 5 },
    ]);
  });

  test.each(['duration (min)', 'rep length (min)', 'Length [min]', 'rep duration'])(
    '"%s" is the length of a rep',
    (heading) => {
      const { reps } = sessionFromText(`rep,power,${heading},minute,La\n1,200,10,8,2.1\n`);
      expect(reps[0]).toMatchObject({ minutes: 10, readings: [{ minute: 8 }] });
    },
  );

  test('heart rate alone will do when the sport is known', () => {
    const session = sessionFromText('rep,minute,HR\n1,8,160\n2,8,164\n', { sport: 'running' });
    expect(session.reps.map((rep) => rep.intensity)).toEqual([null, null]);
    expect(session.notes.join(' ')).toMatch(/judged by heart rate/);
  });

  test('a bare RPE is taken for the scale its size allows, and says so', () => {
    expect(sessionFromText('rep,power,minute,RPE\n1,200,8,13\n').exertionScale).toBe('6-20');
    const small = sessionFromText('rep,power,minute,RPE\n1,200,8,4\n');
    expect(small.exertionScale).toBe('CR10');
    expect(small.notes.join(' ')).toMatch(/taken as CR10/);
  });

  test.each([
    ['chest pain', 'chest pain'],
    ['Light-headed', 'fainting or dizziness'],
    ['heart racing', 'palpitations'],
    ['short of breath', 'unusual breathlessness'],
    ['felt sick', 'nausea'],
    ['pins and needles', 'tingling'],
    ['lost form', 'loss of form'],
    ['no nausea but chest tight', 'chest pain'],
    ['breathing ragged', 'breathing out of control'],
    ['gave up', 'could not finish'],
  ])('"%s" is read as %s', (written, sign) => {
    expect(sessionFromText(`rep,power,minute,signs\n1,200,8,${written}\n`).reps[0]!.signs).toEqual([sign]);
  });

  test.each(['none', '-', '', 'no nausea', 'no', 'n/a', 'no nausea; no chest pain'])(
    '"%s" is no sign',
    (written) => {
      expect(sessionFromText(`rep,power,minute,signs\n1,200,8,${written}\n`).reps[0]!.signs).toEqual([]);
    },
  );
});

test.each(['heavy legs', 'Legs felt very heavy', 'a bit tired'])(
  '"%s" is no sign, which is said, and stops nothing',
  (written) => {
    const { reps, notes } = sessionFromText(`rep,power,minute,signs\n1,200,8,${written}; nausea\n`);
    expect(reps[0]!.signs).toEqual(['nausea']);
    expect(notes.join(' ')).toContain(`"${written}" is kept and counts for nothing`);
  },
);

describe('a faulty table of reps says what, where and what is expected', () => {
  const edited = (from: string, to: string) => TABLE.replace(from, to);
  test.each([
    [
      'a rep without time',
      edited('290,8,3.9', '290,,3.9'),
      /line 3, character \d+, field 4 "minute": no time/,
    ],
    ['negative lactate', edited('3.9', '-3.9'), /"-3\.9" is not possible; expected 0\.1 to 35/],
    ['heart rate 400', edited('166', '400'), /field 6 .*"400" is not possible; expected 25 to 250 bpm/],
    [
      'reps out of order',
      edited('3,7:30', '1,7:30'),
      /line 6.*rep 1 stands after rep 2; expected the reps in the order/,
    ],
    ['minutes out of order', edited('2,,,8,', '2,,,3,'), /minute 3 stands after minute 4 of the same rep/],
    ['a minute outside the rep', edited('1,8:00,290,8,', '1,8:00,290,18,'), /minute 18 of a rep of 8 min/],
    ['no number of the rep', edited('1,8:00', 'one,8:00'), /"one" is no rep; expected its number/],
    ['no intensity', edited('1,8:00,290', '1,8:00,'), /rep 1 has no intensity/],
    ['two intensities', edited('2,,,8', '2,,310,8'), /a second intensity in rep 2/],
    ['a rating off the scale', edited(',13,', ',3,'), /a rating of 3 is not possible; expected 6 to 20/],
    [
      'a sign that is none',
      edited('nausea; tingling', 'chset pian'),
      /"chset pian" is no sign known here; expected chest pain/,
    ],
    ['words for a number', edited('3.9', 'high'), /"high" is not a number/],
    ['no column of reps', 'power,minute,lactate\n200,8,2\n', /no column of reps/],
    [
      'no column of time',
      'rep,power,lactate\n1,200,2\n',
      /add a column duration \(min\).* such as 8 or 8:00, or minute/,
    ],
    [
      'a rep without length',
      'rep,power,duration (min),lactate\n1,200,8,2\n2,200,,2.1\n',
      /field 3 "duration \(min\)": no time; expected the length of the rep/,
    ],
    ['no intensity at all', 'rep,minute,lactate\n1,8,2\n', /no column of intensity/],
    ['no rows', 'rep,power,minute\n', /no reps/],
  ])('%s', (_, text, says) => {
    expect(message(() => sessionFromText(text, { file: 's.csv' }))).toMatch(says);
  });

  test('the check and the reading agree, and marks stand at the entry', () => {
    const grid: GridValue = {
      headings: ['rep', 'power (W)', 'minute', 'lactate'],
      rows: [
        ['1', '200', '8', '2.1'],
        ['2', '200', '', '2.4'],
        ['', '', '', ''],
      ],
    };
    expect(checkSession(grid).filter((mark) => mark.tone === 'problem')).toMatchObject([
      { row: 1, column: 2 },
    ]);
    expect(message(() => readSession(grid))).toMatch(/row 2, "minute"/);
  });
});
