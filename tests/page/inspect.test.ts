import { expect, test } from 'vitest';
import { inspect, plain } from '../../src/page/results/inspect.ts';

test('plain values', () => {
  expect(inspect(1 / 3)).toBe('0.333333');
  expect(inspect('text')).toBe('"text"');
  expect(inspect(null)).toBe('null');
  expect(inspect(undefined)).toBe('undefined');
  expect(inspect(Symbol('s'))).toBe('Symbol(s)');
  expect(inspect(new Float64Array([1, 2]))).toBe('[1, 2]');
  expect(inspect(new Map([['a', 1]]))).toBe('Map {\n  a: 1\n}');
  expect(inspect(() => 1)).toMatch(/^function/);
});

test('depth and length are limited', () => {
  expect(inspect({ a: { b: { c: { d: 1 } } } })).toContain('c: {… 1 fields}');
  expect(inspect(Array.from({ length: 20 }, (_, i) => i))).toBe(
    '[0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, … 8 more]',
  );
  expect(inspect('x'.repeat(500)).length).toBeLessThan(260);
});

test('a circle and a getter that throws do no harm', () => {
  const circle: Record<string, unknown> = {};
  circle.self = circle;
  expect(inspect(circle)).toContain('self: {');
  expect(
    inspect({
      get bad(): never {
        throw new Error('no');
      },
    }),
  ).toBe('a value that cannot be shown');
});

test('text stays text where text was promised', () => {
  expect(plain('as it is')).toBe('as it is');
  expect(plain({ a: 1 })).toBe('{\n  a: 1\n}');
});
