import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { readStageTable } from '../../src/data-in/stages.ts';
import { isNumbered, readNamedOrNot, readUnnamedTable } from '../../src/data-in/unnamed.ts';

const read = (text: string) => readUnnamedTable(text, new InputError('no table'));

describe('a table whose headings nobody knows', () => {
  test('is found by its numbers, beneath the words above them; a row at rest may come first', () => {
    const table = read('Name;B-07\nDatum;12.03.2026\n\nBelastung;Laktat\nRuhe;1,1\n100;1,0\n150;1,4\n');
    expect(table.headings).toEqual(['Belastung', 'Laktat']);
    expect(table.rows).toEqual([
      ['Ruhe', '1,1'],
      ['100', '1,0'],
      ['150', '1,4'],
    ]);
    expect(table.notes).toEqual(['Name, B-07', 'Datum, 12.03.2026']);
    expect(table.headingPlace.line).toBe(4);
    expect(table.places.map(({ line }) => line)).toEqual([5, 6, 7]);
    expect(isNumbered(table)).toBe(false);
  });

  test('has its columns numbered where there are no words; every row stays', () => {
    const table = read('# indoors\nRuhe;;1,1\n1;100;1,0;quiet\n2;150;1,4\n');
    expect(table.headings).toEqual(['column 1', 'column 2', 'column 3', 'column 4']);
    expect(table.rows).toEqual([
      ['Ruhe', '', '1,1', ''],
      ['1', '100', '1,0', 'quiet'],
      ['2', '150', '1,4', ''],
    ]);
    expect(table.notes).toEqual(['indoors']);
    expect(isNumbered(table)).toBe(true);
  });

  test('a column without a name gets its number, and a named delimiter is heeded', () => {
    expect(read('sep=:\nBelastung::Laktat\n100:x:1.0\n150:y:1.4').headings).toEqual([
      'Belastung',
      'column 2',
      'Laktat',
    ]);
  });

  test.each(['', 'a letter; to you\nwith no numbers\n', 'x;1;2\n', '1\n2\n3\n', '\u0000'])(
    '%j is none',
    (text) => {
      expect(() => read(text)).toThrow('no table');
    },
  );

  test('a reader that knows the headings goes first, and its other refusals stay', () => {
    const named = readNamedOrNot(readStageTable, 'power;Laktat\n100;1\n150;2\n');
    expect(named.headings).toEqual(['power', 'Laktat']);
    expect(readNamedOrNot(readStageTable, 'Belastung;Laktat\n100;1\n150;2\n').headings).toEqual([
      'Belastung',
      'Laktat',
    ]);
    expect(() => readNamedOrNot(readStageTable, 'power,lactate\n100,1,0\n150,2,1\n', 'f.csv')).toThrow(
      /^f\.csv, line 2: 3 entries, but there are 2 headings/,
    );
    expect(() => readNamedOrNot(readStageTable, 'a letter', 'f.txt')).toThrow(
      /^f\.txt, line 1: no row of headings found/,
    );
  });
});
