import { describe, expect, test } from 'vitest';
import { type ExponentialCurve, type FittedCurve, fitCurve } from '../../src/physiology/curves/index.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import type { CurveId, Readings } from '../../src/physiology/stepTest.ts';
import { digits, expectDigits } from '../digits.ts';
import r from '../references/made-up/curves.json' with { type: 'json' };
import given from '../references/made-up/thresholds.json' with { type: 'json' };
import { stepTest } from './stepTests.ts';

// tests/references/made-up/curves.R: R's own lm, nls, smooth.spline, uniroot, on rows as they stand. Where a reading
// was given twice, R has two rows and this code one reading of weight 2.
interface Fit {
  sse: number;
  levels: (number | null)[];
  belowChord: number | null;
}
interface Record {
  name: string;
  quadratic: Fit;
  cubic: Fit;
  quartic: Fit;
  exponential: Fit | null;
  spline: { fitted: number[]; between: number[]; bending: number[]; levels: (number | null)[] };
}
const RECORDS = r.tests as Record[];

function readingsNamed(name: string): { readings: Readings; y: number[] } {
  const { x, y } = given.tests.find((t) => t.name === name)!;
  return { readings: usableReadings(stepTest(x, y)), y };
}

/** What samples at one intensity differ among themselves: no curve can take it up. */
function pureError(readings: Readings, y: number[]): number {
  const about = readings.y.reduce((sum, v, i) => sum + readings.count[i]! * v * v, 0);
  const total = y.reduce((sum, v) => sum + v * v, 0);
  return y.length === readings.y.length ? 0 : total - about;
}

function expectPlace(got: number, expected: number | null, atLeast: number, what: string) {
  if (expected === null) expect(got, what).toBeNaN();
  else expectDigits(got, expected, { atLeast, what });
}

const LEVELS = r.levels;
const chordSlope = (curve: FittedCurve) => (curve.at(curve.hi) - curve.at(curve.lo)) / (curve.hi - curve.lo);

describe.each(RECORDS)('R: $name', (record) => {
  const { readings, y } = readingsNamed(record.name);
  // lm is good for 10 digits of the curve, nls "plinear" for 7: it stops at 1e-10 of the residuals.
  test.each([
    ['quadratic', 9],
    ['cubic', 9],
    ['quartic', 9],
    ['exponential', 6],
  ] as const)('%s', (model, atLeast) => {
    const expected = record[model];
    const curve = fitCurve(readings, { model });
    if (expected === null) {
      // R finds no least sum of squares inside its growths, 0.05 to 25; here they go from 0.02 to 30.
      const { status, growth } = curve as unknown as ExponentialCurve;
      expect(status === 'ok' && growth > 0.06 && growth < 24).toBe(false);
      return;
    }
    const left = curve.sse + pureError(readings, y);
    expect(Math.abs(left - expected.sse), 'sse').toBeLessThan(1e-9 * Math.max(1, expected.sse));
    LEVELS.forEach((level, i) => {
      expectPlace(curve.crossing(level), expected.levels[i]!, atLeast, `${level} mmol/L`);
    });
    if (model === 'quadratic' || expected.belowChord === null) return;
    expectPlace(curve.tangentAt(chordSlope(curve)), expected.belowChord, atLeast, 'farthest below the chord');
  });

  test('spline', () => {
    const curve = fitCurve(readings, { model: 'spline' });
    const { x } = readings;
    const middles = [...x.subarray(1)].map((right, i) => (x[i]! + right) / 2);
    const at = (places: ArrayLike<number>) => Array.from(places, (place) => curve.at(place));
    // R's penalty takes 1/3 as 0.333, which is worth a few units in the 5th digit of the readings' range.
    const range = Math.max(...readings.y) - Math.min(...readings.y);
    [...at(x), ...at(middles)].forEach((value, i) => {
      const expected = [...record.spline.fitted, ...record.spline.between][i]!;
      expect(Math.abs(value - expected) / range).toBeLessThan(1e-4);
    });
    // Where nothing bends, as on a straight line, what counts as large is a bend over the whole range.
    const most = Math.max(range / (curve.hi - curve.lo) ** 2, ...record.spline.bending.map(Math.abs));
    record.spline.bending.forEach((bend, i) => {
      expect(Math.abs(curve.curvature(x[i]!) - bend) / most, `bend at ${x[i]}`).toBeLessThan(0.003);
    });
    LEVELS.forEach((level, i) => {
      expectPlace(curve.crossing(level), record.spline.levels[i]!, 3.5, `${level} mmol/L`);
    });
  });
});

describe('the comparison with R', () => {
  test('has enough of each', () => {
    expect(RECORDS.length).toBeGreaterThan(50);
    const answered = (model: CurveId) =>
      RECORDS.filter((record) => record[model as 'cubic']?.levels.some((v) => v !== null)).length;
    for (const model of ['quadratic', 'cubic', 'quartic', 'exponential', 'spline'] as const) {
      expect(answered(model), model).toBeGreaterThan(40);
    }
  });

  test('can fail', () => {
    expect(() => expectPlace(200.001, 200, 6, 'place')).toThrow('place');
    expect(() => expectPlace(200, null, 6, 'place')).toThrow();
    expect(() => expectPlace(Number.NaN, 200, 6, 'place')).toThrow();
    expect(digits(200.001, 200)).toBeLessThan(6);
  });
});
