import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { headingLines, readTableSaid } from '../../src/data-in/headingsSaid.ts';
import { bringTable } from '../../src/toolkit/broughtTable.ts';

const TEXT =
  'HR,heart rate\nplain note\n# Test,Labor\n\nNo,P,HR,La\n,Watt,1/min,mmol/l\nrest,,61,1.1\n1,100,110,1.0,x\n2,150,131,1.4\nMean,all,of,them\n';

describe('the line of headings', () => {
  test('may be any with two words or more above numbers', () => {
    expect(headingLines(TEXT)).toEqual([
      { line: 1, entries: ['HR', 'heart rate'] },
      { line: 3, entries: ['# Test', 'Labor'] },
      { line: 5, entries: ['No', 'P', 'HR', 'La'] },
      { line: 6, entries: ['Watt', '1/min', 'mmol/l'] },
    ]);
    expect(headingLines('a letter, to you\nwithout, numbers\n')).toEqual([]);
    expect(headingLines(`${'a,b\n'.repeat(200_000)}1,2\n`)).toEqual([]);
  });

  test('is where somebody says; the units below join it, lines above are notes, every column has a name', () => {
    const table = readTableSaid(TEXT, 5, 'f.csv');
    expect(table.headings).toEqual(['No', 'P (Watt)', 'HR (1/min)', 'La (mmol/l)', 'column 5']);
    expect(table.rows).toEqual([
      ['rest', '', '61', '1.1', ''],
      ['1', '100', '110', '1.0', 'x'],
      ['2', '150', '131', '1.4', ''],
      ['Mean', 'all', 'of', 'them', ''],
    ]);
    expect(table.places.map(({ line }) => line)).toEqual([7, 8, 9, 10]);
    expect(table.notes).toEqual(['HR, heart rate', 'plain note', 'Test, Labor']);
  });

  test('may be marked as a comment', () => {
    expect(readTableSaid(TEXT, 3).headings.slice(0, 3)).toEqual(['Test', 'Labor', 'column 3']);
  });

  test('may be none: the rows begin with the numbers or a row at rest', () => {
    const table = readTableSaid('power;lactate;notes\n\nrest;;1,1\n1;100;1,0\n2;150;1,4\n', 'none');
    expect(table.headings).toEqual(['column 1', 'column 2', 'column 3']);
    expect(table.rows[0]).toEqual(['rest', '', '1,1']);
    expect(table.headingPlace.line).toBe(3);
  });

  test.each([
    ['', 1, /^f, no rows of numbers/],
    ['a,b\n1,2\n', 3, /^f, line 3: nothing there; expected headings/],
    ['a,b\n\n1,2\n', 2, /^f, line 2: nothing there/],
    [`a,b\n1,2${',3'.repeat(1000)}\n`, 1, /a table of more than 1000 columns/],
  ])('%#: what is no table is refused', (text, line, message) => {
    const read = () => readTableSaid(text, line, 'f');
    expect(read).toThrow(InputError);
    expect(read).toThrow(message);
  });

  test('is told, and what the units say is guessed anew', () => {
    const brought = { text: TEXT, name: 'f.csv', notes: ['Sheet 2.'] };
    const { source, value } = bringTable(brought, { of: 'stages' }, 5);
    expect(value.headings).toEqual(['No', 'power (W)', 'HR (1/min)', 'La (mmol/l)', 'column 5']);
    expect(source).toMatchObject({ brought, headingsAt: 5, guessed: [false, true, false, false, false] });
    expect(source.headings[1]).toBe('P (Watt)');
    expect(source.about).toEqual([
      'f.csv: headings in line 5, as you said.',
      'Beside the table: "HR, heart rate", "plain note", "Test, Labor".',
      'Sheet 2.',
    ]);
    const { about, headingsAt } = bringTable(brought, { of: 'stages' }, 'none').source;
    expect(headingsAt).toBe('none');
    expect(about[0]).toBe('f.csv: no headings, as you said, so the columns are numbered.');
  });
});
