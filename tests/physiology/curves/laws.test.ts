import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../../src/base/inputError.ts';
import { type Curve, fitCurve, MODELS, prepareCurve } from '../../../src/physiology/curves/index.ts';
import { StraightPieces } from '../../../src/physiology/curves/straightPieces.ts';
import type { CurveId } from '../../../src/physiology/stepTest.ts';
import { expectDigits } from '../../digits.ts';
import { A, B, logLogOn, readingsOf } from './shapes.ts';

const models = Object.keys(MODELS) as CurveId[];
const SEED = { seed: 20261125, numRuns: 60 };

/** Lactate curves as they come: 8 stages, flat and then rising, with errors of up to ±0.3. */
const lactates = fc
  .tuple(
    fc.double({ min: 0.7, max: 2, noNaN: true }),
    fc.double({ min: 0.003, max: 0.3, noNaN: true }),
    fc.double({ min: 2, max: 6, noNaN: true }),
    fc.array(fc.double({ min: -0.3, max: 0.3, noNaN: true }), { minLength: 8, maxLength: 8 }),
  )
  .map(([base, size, growth, errors]) =>
    Float64Array.from(errors, (e, i) => base + size * Math.exp((growth * i) / 7) + e),
  );
const x8 = Float64Array.of(100, 130, 160, 190, 220, 250, 280, 310);

const grid = (curve: Curve, steps = 3000) =>
  Array.from({ length: steps + 1 }, (_, i) => curve.lo + ((curve.hi - curve.lo) * i) / steps);

describe.each(models)('every reading of the %s curve agrees with a fine grid', (model) => {
  const curve = prepareCurve(model, x8);
  const each = (check: (y: Float64Array) => void) =>
    fc.assert(
      fc.property(lactates, (y) => {
        if (curve.fit(y) === 'ok') check(y);
      }),
      SEED,
    );

  test('slope is the difference quotient between corners', () => {
    each(() => {
      const h = 1e-4;
      for (const x of [103.3, 171.7, 248.1, 305.9]) {
        const quotient = (curve.at(x + h) - curve.at(x - h)) / (2 * h);
        expect(Math.abs(curve.slope(x) - quotient)).toBeLessThan(1e-7);
        if (curve instanceof StraightPieces) {
          expect(curve.curvature(x)).toBeNaN();
          continue;
        }
        const bend = (curve.slope(x + h) - curve.slope(x - h)) / (2 * h);
        expect(Math.abs(curve.curvature(x) - bend)).toBeLessThan(1e-8);
      }
    });
  });

  test('lowest and peak', () => {
    each(() => {
      const values = grid(curve).map((x) => curve.at(x));
      // A corner between two grid points, 0.07 apart, may lie so far beyond both.
      const sag = 0.07 * 0.05;
      expect(curve.at(curve.lowest())).toBeLessThanOrEqual(Math.min(...values) + 1e-12);
      expect(curve.at(curve.lowest())).toBeGreaterThan(Math.min(...values) - sag);
      expect(curve.peak()).toBeGreaterThanOrEqual(Math.max(...values) - 1e-12);
      expect(curve.peak()).toBeLessThan(Math.max(...values) + sag);
    });
  });

  test('crossing is the last upward one right of the lowest point and of `from`', () => {
    each(() => {
      for (const [level, from] of [
        [1.5, 100],
        [2, 100],
        [3, 205],
        [4, 305],
      ] as const) {
        const got = curve.crossing(level, from);
        const start = Math.max(from, curve.lowest());
        const places = [start, ...grid(curve).filter((x) => x > start)];
        const last = places.findLastIndex(
          (x, i) => i > 0 && curve.at(places[i - 1]!) < level && curve.at(x) >= level,
        );
        if (Number.isNaN(got)) expect(last).toBe(-1);
        else {
          expect(Math.abs(curve.at(got) - level)).toBeLessThan(1e-11);
          expect(got).toBeGreaterThanOrEqual(start);
          if (last >= 0) expect(Math.abs(got - places[last]!)).toBeLessThan(0.08);
        }
      }
    });
  });

  test('the number of upward crossings', () => {
    each(() => {
      const values = grid(curve, 1500).map((x) => curve.at(x));
      for (const level of [1.2, 2, 3]) {
        const seen = values.filter((v, i) => i > 0 && values[i - 1]! < level && v >= level).length;
        // Two crossings closer than a grid step go unseen there.
        expect(curve.upwardCrossings(level)).toBeGreaterThanOrEqual(seen);
        expect(curve.upwardCrossings(level) - seen).toBeLessThanOrEqual(1);
      }
    });
  });

  test('a line of the given slope touches from below at the tangent point', () => {
    each((y) => {
      for (const from of [100, 175]) {
        const slope = (curve.at(310) - Math.min(...y)) / 150;
        const got = curve.tangentAt(slope, from);
        if (Number.isNaN(got)) continue;
        expect(got).toBeGreaterThan(from);
        expect(got).toBeLessThan(310);
        const height = (x: number) => curve.at(x) - slope * x;
        // No neighbour lies lower.
        for (const step of [-0.5, -0.01, 0.01, 0.5]) {
          expect(height(Math.min(310, got + step))).toBeGreaterThan(height(got) - 1e-9);
        }
      }
    });
  });
});

describe.each(models)('laws of the %s curve', (model) => {
  test('another unit of intensity moves thresholds by the same factor, and scaled lactate the levels', () => {
    const { x, y, count } = B;
    const plain = fitCurve(B, { model });
    const metres = fitCurve({ x: x.map((v) => v / 3.6), y, count }, { model });
    const scaled = fitCurve({ x, y: y.map((v) => 3 * v), count }, { model });
    const shifted = fitCurve({ x: x.map((v) => v + 100), y: y.map((v) => v + 2), count }, { model });
    for (const level of [2, 3, 4, 5.5]) {
      const expected = plain.crossing(level);
      expect(expected).toBeGreaterThan(8);
      expectDigits(metres.crossing(level) * 3.6, expected, { atLeast: 10 });
      expectDigits(scaled.crossing(3 * level), expected, { atLeast: 10 });
      expectDigits(shifted.crossing(level + 2) - 100, expected, { atLeast: 9 });
    }
  });

  test('a stage sampled twice weighs as much as the same stage entered in two tests’ mean', () => {
    const same = fitCurve({ ...B, count: B.count.map(() => 2) }, { model });
    const once = fitCurve(B, { model });
    for (const x of [8.5, 11.1, 14.4]) expectDigits(same.at(x), once.at(x), { atLeast: 10 });
  });

  test('refitting in place leaves nothing of the fit before', () => {
    const curve = prepareCurve(model, A.x);
    curve.fit(Float64Array.of(9, 1, 8, 2, 7, 3, 6));
    curve.fit(A.y);
    const fresh = fitCurve(A, { model });
    for (const x of [100, 150, 222, 339, 340]) expect(curve.at(x)).toBe(fresh.at(x));
    expect(curve.crossing(4)).toBe(fresh.crossing(4));
  });

  test('the readings are not changed', () => {
    const y = A.y.slice();
    fitCurve({ ...A, y }, { model });
    expect(y).toEqual(A.y);
  });

  test('too few stages: an input error for the user, a singular curve for programs', () => {
    const { minPoints } = MODELS[model];
    const few = readingsOf(
      A.x.subarray(0, minPoints - 1) as unknown as number[],
      A.y.subarray(0, minPoints - 1) as unknown as number[],
    );
    expect(() => fitCurve(few, { model })).toThrow(InputError);
    expect(() => fitCurve(few, { model })).toThrow(`needs at least ${minPoints} stages`);
    const curve = prepareCurve(model, few.x);
    expect(curve.fit(few.y)).toBe('singular');
    expect([curve.at(few.x[0]!), curve.crossing(1), curve.lowest(), curve.peak(), curve.slope(1)]).toEqual(
      Array(5).fill(NaN),
    );
    expect([curve.tangentAt(1), curve.upwardCrossings(1)]).toEqual([NaN, 0]);
  });

  test('as few stages as it can do', () => {
    const { minPoints } = MODELS[model];
    const y = Float64Array.from({ length: minPoints }, (_, i) => 1 + 0.1 * 3 ** i);
    const x = Float64Array.from({ length: minPoints }, (_, i) => 100 + 30 * i);
    expect(prepareCurve(model, x).fit(y)).toBe('ok');
  });

  test('a level outside the curve has no crossing; the level of an end has', () => {
    const curve = fitCurve(B, { model });
    expect(curve.crossing(50)).toBeNaN();
    expect(curve.crossing(curve.at(curve.hi))).toBe(curve.hi);
    expect(curve.crossing(-50)).toBeNaN();
    expect(curve.crossing(4, curve.hi)).toBeNaN();
  });
});

describe('what is no lactate curve', () => {
  const line = readingsOf([1, 2, 3, 4, 5, 6, 7, 8], [1, 2, 3, 4, 5, 6, 7, 8]);
  const flat = readingsOf([1, 2, 3, 4, 5, 6, 7, 8], Array(8).fill(1.3));
  const cap = readingsOf([1, 2, 3, 4, 5, 6, 7, 8], [1, 2.7, 4, 4.9, 5.6, 6.1, 6.5, 6.7]);

  test.each([
    ['exponential', 'a straight line', line, 'singular'],
    ['exponential', 'no rise at all', flat, 'singular'],
    ['exponential', 'a curve that bends down', cap, 'singular'],
    ['two-segment', 'a straight line', line, 'not-convex'],
    ['two-segment', 'no rise at all', flat, 'not-convex'],
    ['two-segment', 'a curve that bends down', cap, 'not-convex'],
    ['three-segment', 'a straight line', line, 'not-convex'],
    ['three-segment', 'a curve that bends down', cap, 'not-convex'],
  ] as const)('%s, %s: %3$s', (model, _, readings, status) => {
    const curve = fitCurve(readings, { model });
    expect(curve.status).toBe(status);
  });

  test('an exponential that only falls ever more steeply is not convex', () => {
    const mirrored = readingsOf([1, 2, 3, 4, 5, 6, 7], [8, 7.9, 7.75, 7.5, 6.9, 5.8, 3.4]);
    const curve = fitCurve(mirrored, { model: 'exponential' });
    expect(curve.status).toBe('not-convex');
    expect([curve.crossing(5), curve.tangentAt(0.1), curve.upwardCrossings(5)]).toEqual([NaN, NaN, 0]);
    expect(curve.lowest()).toBe(7);
  });

  test('only the last point rises: no growth is steep enough', () => {
    const hockey = readingsOf([1, 2, 3, 4, 5, 6, 7], [1, 1, 1, 1, 1, 1, 9]);
    expect(fitCurve(hockey, { model: 'exponential' }).status).toBe('singular');
  });

  test('log–log refuses lactate or intensity at or below 0, and a bend the wrong way', () => {
    const fit = logLogOn(A.x);
    expect(fit.fit(Float64Array.of(0.9, 0, 0.9, 1.1, 1.6, 2.9, 7.9))).toBe('singular');
    expect([fit.intensity, fit.lactate, fit.at(200)]).toEqual([NaN, NaN, NaN]);
    expect(fit.fit(A.y)).toBe('ok');
    expect(logLogOn(Float64Array.of(0, 1, 2, 3, 4, 5)).fit(A.y.slice(0, 6))).toBe('singular');
    expect(logLogOn(A.x.slice(0, 4)).fit(A.y.slice(0, 4))).toBe('singular');
    const bowed = A.x.map((v) => Math.log(v - 90));
    expect(fit.fit(bowed)).toBe('not-convex');
  });
});

test('a wiggling curve: more than one upward crossing, the last one counts', () => {
  const wavy = readingsOf([1, 2, 3, 4, 5, 6, 7], [1, 3, 1, 3, 1, 3, 5]);
  const raw = fitCurve(wavy, { model: 'raw' });
  expect(raw.upwardCrossings(2)).toBe(3);
  expect(raw.crossing(2)).toBe(5.5);
  expect(raw.crossing(2, 5.75)).toBeNaN();
  expect(raw.lowest()).toBe(1);
});

test('a curve that starts high and never comes back up has no crossing', () => {
  const early = readingsOf([1, 2, 3, 4], [1, 3, 2, 0.5]);
  expect(fitCurve(early, { model: 'raw' }).crossing(2)).toBeNaN();
});

test('the exponential finds the best growth anywhere in its range', () => {
  const x = Float64Array.from({ length: 9 }, (_, i) => 100 + 25 * i);
  for (let growth = 0.05; growth < 25; growth *= 1.13) {
    const y = x.map((v) => 1 + (3 * Math.expm1((growth * (v - 100)) / 200)) / Math.expm1(growth));
    const curve = fitCurve({ x, y }, { model: 'exponential' });
    expect(curve.status).toBe('ok');
    // Exact data: the growth comes back to what rounding of y leaves of it.
    const again = (curve as unknown as { growth: number }).growth;
    expectDigits(again, growth, { atLeast: 9.5 });
  }
});

test.each([
  [
    'an unknown curve',
    [1, 2, 3, 4],
    [1, 1, 2, 4],
    'sextic',
    'There is no curve "sextic"; the curves are raw, ',
  ],
  ['a lactate too few', [1, 2, 3, 4], [1, 1, 2], 'raw', 'one lactate: there are 4 and 3'],
  ['a missing lactate', [1, 2, 3, 4], [1, NaN, 2, 4], 'raw', 'Point 2 is not two numbers: 2 and NaN'],
  ['an infinite intensity', [1, 2, 3, Number.POSITIVE_INFINITY], [1, 1, 2, 4], 'raw', 'Point 4'],
  ['an intensity given twice', [1, 2, 2, 4], [1, 1, 2, 4], 'cubic', 'but 2 follows 2 at point 3'],
])('%s is an input error', (_, x, y, model, message) => {
  const attempt = () => fitCurve({ x, y }, { model: model as CurveId });
  expect(attempt).toThrow(InputError);
  expect(attempt).toThrow(message);
});
