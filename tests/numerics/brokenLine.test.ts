import { describe, expect, test } from 'vitest';
import { BrokenLine } from '../../src/numerics/brokenLine.ts';
import { leastSquares } from '../../src/numerics/leastSquares.ts';
import { Random } from '../../src/numerics/random.ts';
import { expectDigits } from '../digits.ts';

/** The line through points that weigh the same unless said otherwise. */
function brokenLine(x: ArrayLike<number>, breaks: 1 | 2, weights?: readonly number[]): BrokenLine {
  return new BrokenLine(
    Float64Array.from(x),
    breaks,
    Float64Array.from(x, (_, i) => weights?.[i] ?? 1),
  );
}

/** Weighted sum of squares that a fitted line leaves. */
function sseOf(
  line: BrokenLine,
  x: readonly number[],
  y: readonly number[],
  weights?: readonly number[],
): number {
  const at = [x[0]!, ...line.breakpoints, x.at(-1)!];
  return x.reduce((sse, v, i) => {
    const to = Math.max(
      1,
      at.findIndex((corner) => corner >= v),
    );
    const share = (v - at[to - 1]!) / (at[to]! - at[to - 1]!);
    const fitted = line.corners[to - 1]! + share * (line.corners[to]! - line.corners[to - 1]!);
    return sse + (weights?.[i] ?? 1) * (y[i]! - fitted) ** 2;
  }, 0);
}

/** Plain least squares with given breakpoints. */
function fitAt(x: readonly number[], y: readonly number[], breakpoints: readonly number[]) {
  const hinges = breakpoints.map((k) => x.map((v) => Math.max(0, v - k)));
  const { coefficients, sse } = leastSquares([x.map(() => 1), x, ...hinges], y);
  return { sse, convex: coefficients.subarray(2).every((bend) => bend > 0) };
}

/** At least two points to each piece, those at a breakpoint counting for both. */
function admissible(x: readonly number[], breakpoints: readonly number[]): boolean {
  const ends = [Number.NEGATIVE_INFINITY, ...breakpoints, Number.POSITIVE_INFINITY];
  return ends.slice(1).every((to, j) => x.filter((v) => v >= ends[j]! && v <= to).length >= 2);
}

/** Random lactate-like data from the seeded generator: flat, then rising, with noise. */
function dataSet(seed: number): { x: number[]; y: number[] } {
  const random = new Random(seed);
  const n = 7 + Math.floor(4 * random.uniform());
  const x = Array.from({ length: n }, (_, i) => 100 + 30 * i + 12 * random.uniform());
  const bend = 100 + 30 * n * (0.3 + 0.6 * random.uniform());
  const y = x.map((v) => 1 + 0.3 * Math.exp((v - bend) / 35) + 0.1 * random.normal());
  return { x, y };
}

/** The best admissible breakpoints on a grid, whichever way they bend. */
function bestOnGrid(x: readonly number[], y: readonly number[], breaks: 1 | 2, steps = 60) {
  const [lo, hi] = [x[0]!, x.at(-1)!];
  const grid = Array.from({ length: steps - 1 }, (_, i) => lo + ((hi - lo) * (i + 1)) / steps);
  const choices = grid.flatMap((k, i) => (breaks === 1 ? [[k]] : grid.slice(i + 1).map((q) => [k, q])));
  const fits = choices.filter((ks) => admissible(x, ks)).map((ks) => fitAt(x, y, ks));
  return fits.reduce((best, fit) => (fit.sse < best.sse ? fit : best));
}

describe('exact search for breakpoints', () => {
  describe.each([1, 2] as const)('%i breaks', (breaks) => {
    const sets = Array.from({ length: 40 }, (_, i) => dataSet(i + 1));
    const convex = sets.filter(({ x, y }) => bestOnGrid(x, y, breaks).convex);

    test('the best line on a grid bends upward in most of the data sets', () => {
      expect(convex.length).toBeGreaterThan(25);
    });

    test.each(convex)('never worse than that grid, $x', ({ x, y }) => {
      const line = brokenLine(x, breaks);
      expect(line.fit(Float64Array.from(y))).toBe(true);
      expect(sseOf(line, x, y)).toBeLessThanOrEqual(bestOnGrid(x, y, breaks).sse + 1e-12);
    });

    test.each(sets)('what it reports is an admissible upward bend and its sum of squares, $x', ({ x, y }) => {
      const line = brokenLine(x, breaks);
      if (!line.fit(Float64Array.from(y))) return expect(bestOnGrid(x, y, breaks).convex).toBe(false);
      const at = Array.from(line.breakpoints, (k) => nearest(x, k));
      expect(admissible(x, at)).toBe(true);
      const { sse, convex: upward } = fitAt(x, y, at);
      expect(upward).toBe(true);
      expectDigits(sseOf(line, x, y), sse, { atLeast: 9 });
    });
  });

  /** A breakpoint at a point is that point but for rounding. */
  const nearest = (x: readonly number[], k: number) => x.find((v) => Math.abs(v - k) < 1e-9 * k) ?? k;

  test('finds the corners of an exact broken line, between points and at a point', () => {
    const x = [1, 2, 3, 4, 5, 6, 7, 8, 9];
    for (const [k, q] of [
      [3.3, 6.7],
      [3, 6.25],
      [4.5, 7],
    ] as const) {
      const y = x.map((v) => 2 - 0.1 * v + 0.5 * Math.max(0, v - k) + 2 * Math.max(0, v - q));
      const line = brokenLine(x, 2);
      expect(line.fit(Float64Array.from(y))).toBe(true);
      expectDigits(line.breakpoints, [k, q], { atLeast: 12 });
      expect(sseOf(line, x, y)).toBeLessThan(1e-25);
      const at = (v: number) => 2 - 0.1 * v + 0.5 * Math.max(0, v - k) + 2 * Math.max(0, v - q);
      expectDigits(line.corners, [1, k, q, 9].map(at), { atLeast: 12 });
    }
  });

  test.each([1, 2] as const)('%i breaks: what was fitted before makes no difference', (breaks) => {
    const random = new Random(11);
    const x = [100, 120, 150, 170, 200, 240, 250, 280, 310];
    const again = brokenLine(x, breaks);
    const found = Array.from({ length: 500 }, () => {
      const bend = 100 + 210 * random.uniform();
      const y = Float64Array.from(x, (v) => 1 + 0.3 * Math.exp((v - bend) / 35) + 0.2 * random.normal());
      const fresh = brokenLine(x, breaks);
      const bends = fresh.fit(y);
      expect(again.fit(y)).toBe(bends);
      if (bends)
        expect([...again.breakpoints, ...again.corners]).toEqual([...fresh.breakpoints, ...fresh.corners]);
      return bends;
    });
    expect(found.filter(Boolean).length).toBeGreaterThan(250);
  });

  test('of equally good breakpoints the smallest', () => {
    // Symmetric data: bends at 3 and at 5 fit equally well.
    const x = [1, 2, 3, 4, 5, 6, 7];
    const y = [3, 2, 1, 1, 1, 2, 3];
    const line = brokenLine(x, 1);
    expect(line.fit(Float64Array.from(y))).toBe(true);
    const [k] = line.breakpoints;
    expectDigits(fitAt(x, y, [k!]).sse, fitAt(x, y, [8 - k!]).sse, { atLeast: 12 });
    expect(k).toBeLessThanOrEqual(4);
  });

  test('a whole number as weight equals that many points', () => {
    // The bend of this set lies inside a gap, with two points beyond: there is one best place, no stretch of them.
    const { x, y } = dataSet(3);
    const counts = x.map((_, i) => 1 + (i % 3));
    const repeat = (values: number[]) => values.flatMap((v, i) => Array<number>(counts[i]!).fill(v));
    const line = brokenLine(x, 1, counts);
    line.fit(Float64Array.from(y));
    const least = sseOf(line, x, y, counts);
    expectDigits(least, fitAt(repeat(x), repeat(y), [...line.breakpoints]).sse, { atLeast: 11 });
    for (const move of [-1, -0.01, 0.01, 1]) {
      expect(fitAt(repeat(x), repeat(y), [line.breakpoints[0]! + move]).sse).toBeGreaterThan(least);
    }
  });

  test('nothing that bends upward, nothing found', () => {
    const x = Float64Array.of(1, 2, 3, 4, 5, 6, 7, 8);
    for (const breaks of [1, 2] as const) {
      const line = brokenLine(x, breaks);
      expect(line.fit(x.map((v) => 0.1 * v + 3))).toBe(false);
      expect(line.fit(x.map(() => 1.7))).toBe(false);
      expect(line.fit(x.map(Math.sqrt))).toBe(false);
      expect(line.fit(x.map((v) => v * v))).toBe(true);
    }
  });
});

// R 4.2.2, package segmented, on the broken line of Bacon & Watts 1971, Biometrika 58:525–534 (as shipped with it):
// breakpoint 0.04110578, slopes −0.42207681 and −1.02056754; a global search gives the same. The slopes fall, so
// the data are mirrored here.
test('Bacon & Watts 1971, where iterative fits stop at one of two local minima', () => {
  const x = [
    -0.8, 0.01, -0.25, -0.25, -0.12, -0.12, -0.94, 0.11, 0.11, -0.63, -0.63, -1.39, -1.39, 0.7, 0.7, 0.34,
    1.19, 0.59, 0.85, 0.85, 0.99, 0.99, 0.25, -1.08, -1.08, 0.44, 0.34, 0.25,
  ];
  const y = [
    0.9, 0.51, 0.65, 0.67, 0.6, 0.59, 0.92, 0.43, 0.43, 0.81, 0.83, 1.12, 1.12, -0.13, -0.14, 0.25, -0.65,
    -0.01, -0.3, -0.33, -0.46, -0.43, 0.33, 0.99, 1.03, 0.13, 0.24, 0.3,
  ];
  const places = [...new Set(x)].sort((a, b) => a - b);
  const at = places.map((place) => y.filter((_, i) => x[i] === place));
  const means = at.map((values) => -values.reduce((sum, v) => sum + v, 0) / values.length);
  const counts = at.map((values) => values.length);
  const line = brokenLine(places, 1, counts);
  expect(line.fit(Float64Array.from(means))).toBe(true);
  expectDigits(line.breakpoints, [0.04110578], { atLeast: 6.5 });
  const [left, bend, right] = line.corners;
  expectDigits((left! - bend!) / (-1.39 - line.breakpoints[0]!), 0.42207681, { atLeast: 7 });
  expectDigits((right! - bend!) / (1.19 - line.breakpoints[0]!), 1.02056754, { atLeast: 7 });
  // Replicates are averaged, so their own scatter is not in this sum of squares.
  const scatter = at
    .flatMap((values, i) => values.map((v) => (v + means[i]!) ** 2))
    .reduce((sum, v) => sum + v, 0);
  expectDigits(sseOf(line, places, means, counts) + scatter, 0.00914019723, { atLeast: 8 });
});
