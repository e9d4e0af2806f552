import { describe, expect, test } from 'vitest';
import type { GridValue } from '../../src/base/grid.ts';
import { InputError } from '../../src/base/inputError.ts';
import { checkBouts, readBouts } from '../../src/data-in/bouts.ts';
import { boutsFromText, recoveryFromText, stepTestFromText } from '../../src/data-in/fromText.ts';
import { checkRecovery, readRecovery } from '../../src/data-in/recovery.ts';

const message = (run: () => unknown): string => {
  try {
    run();
  } catch (error) {
    expect(error).toBeInstanceOf(InputError);
    return (error as InputError).message;
  }
  return expect.unreachable('nothing was thrown');
};

describe('a table of recovery samples', () => {
  test('minutes, clock times and seconds; mode; comments; decimal commas', () => {
    const samples = [
      { row: 0, minute: 1, lactate: 9.2 },
      { row: 1, minute: 3, lactate: 9.4 },
      { row: 2, minute: 7.5, lactate: 8 },
    ];
    const expected = { samples, mode: 'passive' };
    expect(recoveryFromText('minute,lactate,mode\n1,9.2,passive\n3,9.4,\n7.5,8,seated\n')).toMatchObject(
      expected,
    );
    expect(recoveryFromText('time (min);lactate (mmol/L)\n1:00;9,2\n3:00;9,4\n7:30;8,0\n')).toMatchObject({
      samples,
      mode: null,
    });
    expect(
      recoveryFromText('# seen\nlactate\trecovery time (s)\tmode\n9.2\t60\tactive\n9.4\t180\t\n8\t450\t\n'),
    ).toMatchObject({
      samples,
      mode: 'active',
      notes: [expect.stringContaining('seen')],
    });
  });

  test.each([
    ['minute,power\n1,200\n3,200\n', /no column of lactate/],
    ['lactate,mode\n9,passive\n8,passive\n', /no column of minutes/],
    ['minute,lactate\n,9.2\n3,9.4\n', /line 2, character 1, field 1 "minute": no minute/],
    ['minute,lactate\n1,9.2\n-3,9.4\n', /"-3" is not possible/],
    ['minute,lactate,mode\n1,9.2,asleep\n', /"asleep" is no kind of recovery; expected passive or active/],
    ['minute,lactate,mode\n1,9.2,active\n3,9,passive\n', /both passive and active/],
    ['minute,lactate\n1,\n3,\n', /no recovery samples/],
    ['minute,lactate\n1,much\n', /"much" is not a number/],
  ])('%j is refused', (text, says) => {
    expect(message(() => recoveryFromText(text, 'r.csv'))).toMatch(says);
  });

  test('the check and the reading agree', () => {
    const grid: GridValue = {
      headings: ['minute', 'lactate'],
      rows: [
        ['1', '9'],
        ['', ''],
        ['x', '8'],
      ],
    };
    expect(checkRecovery(grid)).toMatchObject([{ row: 2, column: 0, tone: 'problem' }, { row: 2 }]);
    expect(message(() => readRecovery(grid))).toMatch(/row 3, "minute"/);
    expect(checkRecovery({ ...grid, rows: grid.rows.slice(0, 2) })).toEqual([]);
  });
});

describe('a table of bouts', () => {
  const text =
    'power (W),minute,lactate,completed\n240,10,2.5,yes\n240,30,2.7,\n270,10,4.3,no\n270,20,5.4,no\n';

  test('rows of one intensity are one bout', () => {
    const test = boutsFromText(text, { file: 'b.csv' });
    expect(test).toMatchObject({ protocol: 'bouts', sport: 'cycling', axis: 'power' });
    expect(test.bouts).toEqual([
      {
        intensity: 240,
        completed: true,
        samples: [
          { row: 0, minute: 10, lactate: 2.5 },
          { row: 1, minute: 30, lactate: 2.7 },
        ],
      },
      {
        intensity: 270,
        completed: false,
        samples: [
          { row: 2, minute: 10, lactate: 4.3 },
          { row: 3, minute: 20, lactate: 5.4 },
        ],
      },
    ]);
    expect(test.notes.join(' ')).toMatch(/taken as cycling/);
  });

  test('runners in paces; without a word on completion nothing is said', () => {
    const test = boutsFromText(
      'pace (min/km),time (min),lactate\n5:00,10,2\n5:00,30,2.4\n4:00,10,4\n4:00,30,6\n',
      { sport: 'running' },
    );
    expect(test.bouts.map((b) => [b.intensity, b.completed])).toEqual([
      [12, null],
      [15, null],
    ]);
  });

  test.each([
    ['power,minute\n240,10\n', /no column of lactate/],
    ['minute,lactate\n10,2\n30,3\n', /no column of intensity/],
    ['power,lactate\n240,2\n240,3\n', /no column of minutes/],
    [text.replace('no\n', 'perhaps\n'), /"perhaps" does not say whether the bout was completed/],
    [text.replace('20,5.4,no', '20,5.4,yes'), /said to be completed and not completed/],
    [text.replace('240,30', '240,10'), /second sample at minute 10 of this bout/],
    [text.replace('240,30', ',30'), /no intensity/],
    [text.replace('240,30', '240,'), /no minute/],
    ['power,minute,lactate\n240,10,\n240,30,\n', /no samples/],
  ])('%j is refused', (broken, says) => {
    expect(message(() => boutsFromText(broken))).toMatch(says);
  });

  test('the check and the reading agree', () => {
    const grid: GridValue = {
      headings: ['power', 'minute', 'lactate'],
      rows: [
        ['240', '10', '2'],
        ['240', 'soon', '3'],
      ],
    };
    expect(checkBouts(grid).filter((mark) => mark.tone === 'problem')[0]).toMatchObject({
      row: 1,
      column: 1,
    });
    expect(message(() => readBouts(grid))).toMatch(/row 2, "minute"/);
  });
});

describe('stage tables of other protocols', () => {
  const table =
    'stage,power (W),lactate\nrest,,1.2\nrecovery 8 min,,9\n1,180,6\n2,200,5\n3,220,4.2\nrecovery 3 min,,8\nrecovery,,7\n';

  test('the row before the stages of a lactate minimum test tells how raised lactate was', () => {
    const read = stepTestFromText(table, { protocol: 'lactate-minimum' });
    expect(read).toMatchObject({ protocol: 'lactate-minimum', lactateBefore: 9, restLactate: 1.2 });
    expect(read.stages.map((s) => s.intensity)).toEqual([180, 200, 220]);
  });

  test('rows after the stages are recovery samples when they say their minute', () => {
    const read = stepTestFromText(table);
    expect(read.recovery).toEqual({ samples: [{ row: 5, minute: 3, lactate: 8 }], mode: null });
    expect(read.lactateBefore).toBeUndefined();
    expect(read.notes.join(' ')).toMatch(/recovery sample, 3 min after the end.*not used without its minute/);
  });

  test('oxygen uptake in its three units, and not without one', () => {
    const read = (heading: string, value: string) =>
      stepTestFromText(`power (W),lactate,${heading}\n100,1,${value}\n150,1.5,${value}\n`);
    expect(read('VO2 (ml/min)', '2100')).toMatchObject({
      oxygenUptakeUnit: 'ml/min',
      stages: [{ oxygenUptake: 2100 }, {}],
    });
    expect(read('VO2 (L/min)', '2.1')).toMatchObject({
      oxygenUptakeUnit: 'ml/min',
      stages: [{ oxygenUptake: 2100 }, {}],
    });
    expect(read('VO2 (ml/kg/min)', '42')).toMatchObject({
      oxygenUptakeUnit: 'ml/min/kg',
      stages: [{ oxygenUptake: 42 }, {}],
    });
    const without = read('VO2', '42');
    expect(without.oxygenUptakeUnit).toBeUndefined();
    expect(without.notes.join(' ')).toMatch(/does not say its unit/);
  });

  test('two columns of oxygen uptake: the first is used and the other named', () => {
    const read = stepTestFromText(
      'power (W),lactate,VO2 (ml/min),VO2 (ml/kg/min)\n100,1,2100,30\n150,1.5,2500,36\n',
    );
    expect(read.stages[1]!.oxygenUptake).toBe(2500);
    expect(read.notes.join(' ')).toMatch(/"VO2 \(ml\/kg\/min\)" is not used beside/);
  });
});
