import { describe, expect, test } from 'vitest';
import { digits, expectDigits } from '../digits.ts';

describe('the digit count that every numeric test rests on', () => {
  test('counts matching digits', () => {
    expect(digits(1.001, 1)).toBeCloseTo(3, 6);
    expect(digits(-250.25, -250)).toBeCloseTo(3, 6);
    expect(digits(1e-9, 0)).toBeCloseTo(9, 6);
    expect(digits(2, 2)).toBe(17);
  });

  test('a flipped sign, NaN and ∞ have no digit', () => {
    expect(digits(-1, 1)).toBeLessThan(0);
    expect(digits(NaN, 1)).toBe(Number.NEGATIVE_INFINITY);
    expect(digits(Number.POSITIVE_INFINITY, 1)).toBe(Number.NEGATIVE_INFINITY);
  });

  test('fails on too few digits, a wrong sign, NaN, a missing value and nothing at all', () => {
    expect(() => expectDigits(1.001, 1, { atLeast: 4 })).toThrow('3.0 digits');
    expect(() => expectDigits(-1, 1, { atLeast: 0.1 })).toThrow('value: -1');
    expect(() => expectDigits(NaN, 1, { atLeast: 0 })).toThrow('NaN');
    expect(() => expectDigits([1, 2.1], [1, 2], { atLeast: 6, what: 'b' })).toThrow('b[1]');
    expect(() => expectDigits([1], [1, 2], { atLeast: 6 })).toThrow('1 values against 2');
    expect(() => expectDigits([], [], { atLeast: 6 })).toThrow('0 values');
  });

  test('passes otherwise and says how many it saw', () => {
    expect(expectDigits([1.0001, 2], [1, 2], { atLeast: 3 })).toBeCloseTo(4, 6);
  });
});
