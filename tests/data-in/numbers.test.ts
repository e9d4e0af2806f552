import { describe, expect, test } from 'vitest';
import { type DecimalMark, decimalMark, readEntry } from '../../src/data-in/numbers.ts';

const number = (value: number, unit = '') => expect.objectContaining({ kind: 'number', value, unit });
const clock = (seconds: number, unit = '') => ({ kind: 'clock', seconds, unit });

describe('readEntry', () => {
  test.each([
    ['12', number(12)],
    ['1.5', number(1.5)],
    ['1,5', number(1.5)],
    ['.5', number(0.5)],
    ['0,123', number(0.123)],
    ['1234.5', number(1234.5)],
    ['−1.2', number(-1.2)],
    ['+3', number(3)],
    [' 12 W', number(12, 'W')],
    ['4.1mmol/L', number(4.1, 'mmol/L')],
    ['6 /min', number(6, '/min')],
    ['１８０', number(180)],
    ['1.234', number(1.234)],
  ])('"%s" is a number', (text, expected) => {
    expect(readEntry(text, 'unknown')).toEqual(expected);
  });

  test.each([
    ['4:00', clock(240)],
    ['04:05', clock(245)],
    ['0:04:00', clock(240)],
    ['1:02:03', clock(3723)],
    ['1:52.5', clock(112.5)],
    ['1:52,5', clock(112.5)],
    ['4:30 /km', clock(270, '/km')],
    ['1:52.5 /500 m', clock(112.5, '/500 m')],
    ['4\'30"', clock(270)],
    ['4′30″', clock(270)],
    ['4 min 30 s', clock(270)],
  ])('"%s" is a time', (text, expected) => {
    expect(readEntry(text, 'unknown')).toEqual(expected);
  });

  test.each(['', ' ', '-', '–', '--', 'NA', 'n/a', 'N/A', 'n.a.', 'NaN', 'null', 'none', 'missing'])(
    '"%s" is missing',
    (text) => expect(readEntry(text, 'unknown')).toEqual({ kind: 'missing' }),
  );

  test.each([
    ['abc', /is not a number/],
    ['<0.8', /is not a number/],
    ['1,234.5', /thousands separator/],
    ['1 234', /thousands separator/],
    ["1'234", /is not a number|thousands separator|seconds/],
    ['4:75', /60 or more seconds/],
    ['1:75:00', /60 or more minutes/],
    ['1.2.3', /is not a number/],
    ['1-2', /is not a number/],
  ])('"%s" cannot be read', (text, reason) => {
    expect(readEntry(text, 'unknown')).toEqual({ kind: 'unreadable', reason: expect.stringMatching(reason) });
  });

  test.each<[string, DecimalMark, number | null]>([
    ['1,234', ',', 1.234],
    ['1,234', '.', null],
    ['1,234', 'unknown', null],
    ['1,234', 'both', null],
    ['1.234', '.', 1.234],
    ['1.234', 'unknown', 1.234],
    ['1.234', ',', null],
    ['1.234', 'both', null],
    ['1234,567', 'unknown', 1234.567],
  ])('"%s" in a table with decimal mark %s', (text, mark, value) => {
    const entry = readEntry(text, mark);
    if (value === null)
      expect(entry).toMatchObject({ kind: 'unreadable', reason: expect.stringContaining('can be read as') });
    else expect(entry).toEqual(number(value));
  });
});

describe('decimalMark', () => {
  test.each<[string[], DecimalMark]>([
    [['1,5', '200'], ','],
    [['1.5', '200'], '.'],
    [['1.5', '1,5'], 'both'],
    [['1,234', '2,345'], 'unknown'],
    [['1,234', '0,950'], ','],
    [['100', 'rest', '4:00'], 'unknown'],
  ])('%j show %s', (entries, mark) => {
    expect(decimalMark(entries)).toBe(mark);
  });
});
