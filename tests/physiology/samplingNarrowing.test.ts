import { describe, expect, test } from 'vitest';
import { HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { type NarrowingOptions, narrowing } from '../../src/physiology/narrowing.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import type { Readings } from '../../src/physiology/stepTest.ts';
import { stepTest, TEN_PRE } from './stepTests.ts';

const readings = usableReadings(TEN_PRE);
const level = { methods: ['fixed-4.0'], options: { curve: 'raw' } as const, seed: 8 };
const last = (given: Readings, options: NarrowingOptions) => [...narrowing(given, options)].at(-1)!;
const repeats = (given: Readings, options: NarrowingOptions) =>
  last(given, { ...options, kinds: ['repeat'] }).methods;

describe('a repeat reading', () => {
  test('on straight lines, by hand: the upper neighbour of 4 mmol/L, and only neighbours count', () => {
    const draws = 20_000;
    const error = { ...NO_ERROR, repeatability: 0.1 };
    const [gain] = repeats(readings, { ...level, error, draws });
    // 4 mmol/L lies between 325 W (2.60) and 350 W (4.69) at this share of the way; a repeat halves one variance.
    const share = (4 - 2.6) / (4.69 - 2.6);
    const all = Math.hypot(share, 1 - share);
    const expected = [
      Math.hypot(share, (1 - share) / Math.SQRT2) / all,
      Math.hypot(share / Math.SQRT2, 1 - share) / all,
    ];
    expect(gain!.best.repeat).toBe(7);
    expect(gain!.ratios.slice(0, 6)).toEqual([1, 1, 1, 1, 1, 1]);
    for (const [k, want] of expected.entries()) {
      expect(Math.abs(gain!.ratios[6 + k]! - want)).toBeLessThan(0.03);
    }
  });

  test('an error that the whole test shares is narrowed by none', () => {
    const error = { ...NO_ERROR, gain: 0.03, offset: 0.05 };
    const [gain] = repeats(readings, { ...level, error, draws: 2000 });
    expect(gain!.ratios).toEqual(new Array(8).fill(1));
    expect(gain!.best.repeat).toBeNull();
  });

  test('an end beyond the tested range leaves the width unknown', () => {
    const near = usableReadings(stepTest([100, 150, 200, 250, 300], [1, 1.1, 1.4, 2.2, 4.1]));
    const error = { ...NO_ERROR, repeatability: 0.08 };
    const [gain] = repeats(near, { ...level, error, draws: 1000 });
    expect(gain!.width).toBeNull();
    expect(gain!.best).toEqual({ repeat: null, added: null, finer: null });
  });

  test('of every method at once, and the readings stay as they were', () => {
    const gains = repeats(readings, { error: HANDHELD, seed: 8, draws: 1000 });
    expect(gains.length).toBeGreaterThan(15);
    expect(gains.every(({ ratios }) => ratios.length === 8)).toBe(true);
    expect(gains.some(({ best }) => best.repeat !== null)).toBe(true);
    expect([...readings.count]).toEqual(new Array(8).fill(1));
  });
});

describe('more stages', () => {
  // A straight line through ten stages by least squares: more stages narrow it as the textbook formula says.
  const at = Array.from({ length: 10 }, (_, i) => 100 + 20 * i);
  const straight = usableReadings(
    stepTest(
      at,
      at.map((x) => 1 + (x - 100) / 40),
    ),
  );
  const error = { ...NO_ERROR, repeatability: 0.05 };
  const onParabola = { methods: ['fixed-3.0'], options: { curve: 'quadratic' } as const, error, seed: 3 };

  /** SD of a fitted quadratic at x for these intensities, in units of one reading's SD. */
  function sdAt(x: number, intensities: readonly number[]): number {
    const z = (value: number) => (value - 190) / 90;
    const sums = [0, 1, 2, 3, 4].map((p) => intensities.reduce((sum, v) => sum + z(v) ** p, 0));
    const [s0, s1, s2, s3, s4] = sums as [number, number, number, number, number];
    const m = [
      [s0, s1, s2],
      [s1, s2, s3],
      [s2, s3, s4],
    ] as const;
    const cofactor = (i: number, j: number) => {
      const rows = [0, 1, 2].filter((r) => r !== i);
      const columns = [0, 1, 2].filter((c) => c !== j);
      const [a, b] = rows as [0, 1];
      const [c, d] = columns as [0, 1];
      return (-1) ** (i + j) * (m[a][c] * m[b][d] - m[a][d] * m[b][c]);
    };
    const determinant = m[0].reduce((sum, value, j) => sum + value * cofactor(0, j), 0);
    const phi = [1, z(x), z(x) ** 2];
    const square = phi.reduce(
      (sum, p, i) => sum + phi.reduce((inner, q, j) => inner + (p * q * cofactor(i, j)) / determinant, 0),
      0,
    );
    return Math.sqrt(square);
  }

  test('a least-squares curve is narrowed by them as the formula of its standard error says', () => {
    const draws = 20_000;
    const { steps, methods } = last(straight, { ...onParabola, draws, kinds: ['added', 'finer'] });
    expect(steps).toHaveLength(10);
    const before = sdAt(180, at);
    for (const [k, step] of steps.entries()) {
      const middles = at.slice(1).map((x) => x - 10);
      const more = step.kind === 'added' ? [...at, step.x] : [...at, ...middles];
      // Four Monte Carlo standard errors of a ratio of two widths, each known to 0.7 % from 20,000 draws.
      expect(Math.abs(methods[0]!.ratios[k]! - sdAt(180, more) / before)).toBeLessThan(0.04);
    }
    expect(steps[methods[0]!.best.finer!]).toEqual({ kind: 'finer', x: 10 });
  });

  test('readings between lie on the curve that is named, minutes go on, and steps come one by one', () => {
    const told = [...narrowing(readings, { error: HANDHELD, seed: 1, draws: 200 })];
    expect(told).toHaveLength(8 + 7 + 1);
    expect(told.map(({ steps }) => steps.length)).toEqual(told.map((_, i) => i + 1));
    expect(told.at(-1)!.share).toBe(1);
    expect(told[0]!.curve).toBe('exponential');
    expect(
      told
        .at(-1)!
        .steps.filter(({ kind }) => kind === 'added')
        .map(({ x }) => x),
    ).toEqual([150, 200, 237.5, 262.5, 287.5, 312.5, 337.5]);
  });

  test('a test that is no row of rising stages has repeats alone', () => {
    const reverse = usableReadings({
      ...stepTest([300, 280, 260, 240, 220], [7, 6.5, 5.8, 5.2, 4.9]),
      protocol: 'reverse',
    });
    const { steps, curve } = last(reverse, { error: HANDHELD, seed: 1, draws: 100 });
    expect(curve).toBeNull();
    expect(steps.every(({ kind }) => kind === 'repeat')).toBe(true);
  });
});
