import { describe, expect, test } from 'vitest';
import { LatestWins } from '../../src/page/controls/latestWins.ts';
import { decimalsOf, formatted, readNumber } from '../../src/page/controls/numbers.ts';

describe('LatestWins', () => {
  test('one at a time, and of those that wait only the newest', async () => {
    const arrived: number[] = [];
    let open = () => {};
    const gate = new Promise<void>((done) => {
      open = done;
    });
    const moves = new LatestWins<number>(
      async (value) => {
        arrived.push(value);
        if (value === 1) await gate;
      },
      async () => {},
    );
    const first = moves.send(1);
    void moves.send(2);
    void moves.send(3);
    expect(arrived).toEqual([1]);
    expect(moves.busy).toBe(true);
    open();
    await first;
    expect(arrived).toEqual([1, 3]);
    expect(moves.busy).toBe(false);
  });

  test('a failure lets the next one through', async () => {
    const arrived: number[] = [];
    const moves = new LatestWins<number>(
      async (value) => {
        if (value === 1) throw new Error('no');
        arrived.push(value);
      },
      async () => {},
    );
    await expect(moves.send(1)).rejects.toThrow('no');
    await moves.send(2);
    expect(arrived).toEqual([2]);
  });
});

describe('numbers', () => {
  test('decimals follow the step', () => {
    expect([1, 5, 0.5, 0.01, 0.005, 1e-6].map(decimalsOf)).toEqual([0, 0, 1, 2, 3, 6]);
    expect(formatted(0.1, 0.05)).toBe('0.10');
    expect(formatted(0.123, 0.05)).toBe('0.123');
  });

  const limits = { label: 'Body mass', min: 30, max: 200, unit: 'kg', value: null };

  test('a decimal comma is a decimal point', () => {
    expect(readNumber(' 68,5 ', limits)).toEqual({ value: 68.5 });
  });

  test('minutes may be typed as a time, other units not', () => {
    const minutes = { label: 'Stage length', min: 1, max: 20, unit: 'min', value: 4 };
    expect(readNumber('3:00', minutes)).toEqual({ value: 3 });
    expect(readNumber(' 3:30 ', minutes)).toEqual({ value: 3.5 });
    expect(readNumber('3:75', minutes)).toEqual({
      fault: 'Stage length needs a number in min, such as 4',
    });
    expect(readNumber('30:00', minutes)).toEqual({ fault: 'Stage length must be between 1 and 20 min' });
    expect(readNumber('68:30', limits)).toHaveProperty('fault');
  });

  test('what cannot be used is answered with a sentence', () => {
    expect(readNumber('heavy', limits)).toEqual({ fault: 'Body mass needs a number in kg, such as 120' });
    expect(readNumber('heavy', { ...limits, value: 68.5 })).toEqual({
      fault: 'Body mass needs a number in kg, such as 68.5',
    });
    expect(readNumber('', limits)).toHaveProperty('fault');
    expect(readNumber('20', limits)).toEqual({ fault: 'Body mass must be between 30 and 200 kg' });
    expect(readNumber('-1', { ...limits, min: 0, max: Number.POSITIVE_INFINITY })).toEqual({
      fault: 'Body mass must be at least 0 kg',
    });
  });
});
