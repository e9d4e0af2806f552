import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { readDelimited } from '../../src/data-in/delimited.ts';

describe('readDelimited', () => {
  test('keeps line and character of every entry through blank lines, comments and quotation marks', () => {
    const table = readDelimited('# hello\n\na,b,c\n"x, y",2,3\n\n4,"5",6\n');
    expect(table.headings).toEqual(['a', 'b', 'c']);
    expect(table.rows).toEqual([
      ['x, y', '2', '3'],
      ['4', '5', '6'],
    ]);
    expect(table.headingPlace).toEqual({ line: 3, columns: [1, 3, 5] });
    expect(table.places).toEqual([
      { line: 4, columns: [1, 8, 10] },
      { line: 6, columns: [1, 3, 7] },
    ]);
    expect(table.notes).toEqual(['hello']);
  });

  test.each([
    ['comma', 'a,b\n1,2\n'],
    ['semicolon', 'a;b\n1;2\n'],
    ['tab', 'a\tb\n1\t2\n'],
    ['no end of the last line', 'a;b\n1;2'],
    ['caret', 'a^b\n1^2\n'],
    ['tilde', 'a~b\n1~2\n'],
    ['colon', 'a:b\n1:2\n'],
    ['one space', 'a b\n1 2\n'],
    ['semicolon named in the first line', 'sep=;\na;b\n1;2'],
  ])('%s', (_, text) => {
    expect(readDelimited(text)).toMatchObject({ headings: ['a', 'b'], rows: [['1', '2']] });
  });

  test('a named delimiter keeps the line numbers', () => {
    expect(readDelimited('sep=;\r\na;b\r\n1;2').places[0]!.line).toBe(3);
  });

  test('decimal commas between semicolons stay in their entries', () => {
    expect(readDelimited('a;b;c\n1,5;2,5;3,5\n').rows).toEqual([['1,5', '2,5', '3,5']]);
  });

  test('short rows are filled up, empty entries beyond the headings are dropped', () => {
    expect(readDelimited('a,b,c\n1\n1,2,3,,\n').rows).toEqual([
      ['1', '', ''],
      ['1', '2', '3'],
    ]);
  });

  test('a stage label such as #1 is no comment', () => {
    expect(readDelimited('stage,x\n#1,5\n# done\n').rows).toEqual([['#1', '5']]);
  });

  test.each([
    ['', /^line 1: no row of headings found/, 1],
    ['1,2\n3,4\n', /^line 1: no row of headings found/, 1],
    ['a,b\n1,2,3\n', /^line 2: 3 entries, but there are 2 headings; .*decimal comma/, 2],
    ['a;b\n\n1;2;3\n', /^line 3: 3 entries, but there are 2 headings$/, 3],
    ['a,b\n"1,2\n3,4\n', /^line 2: a quotation mark opens here/, 2],
  ])('%j is refused with its line', (text, message, line) => {
    try {
      readDelimited(text);
      expect.unreachable();
    } catch (error) {
      expect(error).toBeInstanceOf(InputError);
      expect((error as InputError).message).toMatch(message);
      expect((error as InputError).place.line).toBe(line);
    }
  });
});
