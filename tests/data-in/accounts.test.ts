import { describe, expect, test } from 'vitest';
import type { GridValue } from '../../src/base/grid.ts';
import * as accounts from '../../src/data-in/accounts.ts';
import { accountInWords } from '../../src/data-in/accountWords.ts';

/** Headings and rows with a bar between entries. */
const grid = (...lines: string[]): GridValue => {
  const [headings = [], ...rows] = lines.map((line) => line.split('|'));
  return { headings, rows };
};

describe('the account of a table', () => {
  test('of stages tells each row that is no stage, and why', () => {
    const table = grid(
      'stage|power|lactate|HR',
      'rest||1.2|60',
      '1|100|1.0|110',
      'pause|||',
      '2|150||131',
      '|||',
      '3|200|3.1|155',
      'recovery 3 min||6.1|',
      'recovery||5.1|',
      'max|200|6.1|155',
    );
    expect(accounts.accountOfStages(table)).toEqual({
      read: '2 stages, the sample at rest and 1 recovery sample',
      leftOut: [
        { row: 2, why: 'no measurement' },
        { row: 3, why: 'no lactate' },
        { row: 4, why: 'empty' },
        { row: 7, why: 'a recovery sample without its minute' },
        { row: 8, why: 'it sums up others' },
      ],
    });
  });

  test('of a lactate minimum test counts the sample before the stages', () => {
    const table = grid('stage|power|lactate', 'recovery 8 min||9.1', '1|100|7.0', '2|150|5.2', '3|200|6');
    const account = accounts.accountOfStages(table, { protocol: 'lactate-minimum' });
    expect(account).toEqual({ read: '3 stages and the sample before the stages', leftOut: [] });
  });

  test('of other tables', () => {
    const bouts = grid('power|minute|lactate', '200|10|2.1', '200|30|2.4', '220|10|', '220|30|4.4');
    expect(accounts.accountOfBouts(bouts)).toEqual({
      read: '2 bouts with 3 samples',
      leftOut: [{ row: 2, why: 'no lactate' }],
    });
    const training = grid('session|time (min)|power', 'Tue|60|150', '||', 'Thu|20|250');
    expect(accounts.accountOfTraining(training)).toEqual({
      read: '2 pieces of training',
      leftOut: [{ row: 1, why: 'empty' }],
    });
    const recovery = grid('minute|lactate', '1|9.1', '3|');
    expect(accounts.accountOfRecovery(recovery)).toEqual({
      read: '1 recovery sample',
      leftOut: [{ row: 1, why: 'no lactate' }],
    });
  });

  test('refuses what cannot be read', () => {
    expect(() => accounts.accountOfStages(grid('a|lactate', '100|1'))).toThrow('no column of intensity');
  });

  test('in words: rows are numbered as on the page, those left out alike told together', () => {
    const at = (row: number, why: string) => ({ row, why });
    expect(accountInWords({ read: '1 stage', leftOut: [] }, 1)).toBe('Read: 1 stage, from 1 row.');
    const leftOut = [at(0, 'empty'), at(2, 'no lactate'), at(4, 'empty'), at(5, 'empty'), at(6, 'empty')];
    expect(accountInWords({ read: '4 stages', leftOut }, 9)).toBe(
      'Read: 4 stages, from 9 rows. Left out: rows 1 and 5 to 7 (empty); row 3 (no lactate).',
    );
    expect(accountInWords({ read: 'x', leftOut: [at(7, 'b'), at(8, 'b')] }, 9)).toContain('rows 8 and 9 (b)');
  });
});
