import { describe, expect, test } from 'vitest';
import {
  compareCurves,
  type ExponentialCurve,
  fitCurve,
  type PolynomialCurve,
  type SegmentedCurve,
} from '../../../src/physiology/curves/index.ts';
import type { CurveId } from '../../../src/physiology/stepTest.ts';
import { expectDigits } from '../../digits.ts';
import { A, B, logLogOn, TEN_PRE } from './shapes.ts';

// Printed by an independent program (naive QR, grids and bisection), checked again with numpy and scipy.
const FIXTURES = [
  {
    name: 'A',
    readings: A,
    cubic: [0.77143, 0.325, 3.43929, 3.15],
    sse: { quadratic: 3.59571, cubic: 0.65571, quartic: 0.05727, exponential: 0.02597 },
    exponential: { constant: 0.87039, rate: 0.030207, amplitude: 0.00499 },
    two: { breakpoints: [288.986], sse: 0.123 },
    three: { breakpoints: [201.333, 292.889], sse: 0.00667 },
    logLog: 244.501,
    crossings: {
      cubic: [276.2, 293.7, 300.7, 306.8],
      raw: [272.3, 300.8, 304.8, 308.8],
      exponential: [279.5, 300.5, 307.5, 313.3],
    },
    dmax: { cubic: 258.2, exponential: 274.4 },
    aicc: { quadratic: 23.34, cubic: 53.42, quartic: null, exponential: -11.18, 'two-segment': 41.71 },
    decimals: 1,
  },
  {
    name: 'B',
    readings: B,
    cubic: [1.55, 1.31471, 2.56667, 1.58074],
    sse: { quadratic: 0.8931, cubic: 0.08567, quartic: 0.00152, exponential: 0.01835 },
    exponential: { constant: 1.1391, rate: 0.677156, amplitude: 0.05219 },
    two: { breakpoints: [13.385], sse: 0.39943 },
    three: { breakpoints: [11.452, 13.667], sse: 0.023 },
    logLog: 11.574,
    crossings: {
      cubic: [12.296, 13.218, 13.539, 13.815],
      raw: [12.125, 13.2, 13.533, 13.867],
      exponential: [12.14, 13.278, 13.629, 13.913],
    },
    dmax: { cubic: 12.375, exponential: 12.689 },
    aicc: { quadratic: 3.79, cubic: 3.71, quartic: 27.43, exponential: -27.29, 'two-segment': 16.02 },
    decimals: 3,
  },
] as const;

describe.each(FIXTURES)('test $name', (fixture) => {
  const { readings, decimals } = fixture;
  const fitted = <T>(model: CurveId) =>
    fitCurve(readings, { model }) as unknown as T & ReturnType<typeof fitCurve>;
  const near = (got: number, printed: number, digits: number) => expect(got).toBeCloseTo(printed, digits);

  test('cubic coefficients in u', () => {
    const { coefficients } = fitted<PolynomialCurve>('cubic');
    fixture.cubic.forEach((c, k) => {
      near(coefficients[k]!, c, 5);
    });
  });

  test.each(Object.entries(fixture.sse))('sum of squares of the %s', (model, sse) => {
    near(fitted(model as CurveId).sse, sse, 5);
  });

  test('exponential', () => {
    const curve = fitted<ExponentialCurve>('exponential');
    near(curve.constant, fixture.exponential.constant, 5);
    near(curve.rate, fixture.exponential.rate, 6);
    near(curve.amplitude, fixture.exponential.amplitude, 5);
  });

  test.each(['two', 'three'] as const)('%s segments', (count) => {
    const curve = fitted<SegmentedCurve>(`${count}-segment`);
    near(curve.sse, fixture[count].sse, 5);
    fixture[count].breakpoints.forEach((k, j) => {
      near(curve.breakpoints[j]!, k, 3);
    });
  });

  test.each(Object.entries(fixture.aicc))('AICc of the %s', (model, printed) => {
    const [report] = compareCurves(readings, { models: [model as CurveId] });
    if (printed === null) expect(report!.aicc).toBeNull();
    else near(report!.aicc!, printed, 2);
  });

  test('log–log', () => {
    const logLog = logLogOn(readings.x);
    expect(logLog.fit(readings.y)).toBe('ok');
    near(logLog.intensity, fixture.logLog, 3);
    // The bend lies on both of its lines.
    expectDigits(logLog.at(logLog.intensity), logLog.lactate, { atLeast: 13 });
  });

  test.each(Object.entries(fixture.crossings))('2, 3, 3.5 and 4 mmol/L on the %s curve', (model, printed) => {
    const curve = fitted(model as CurveId);
    [2, 3, 3.5, 4].forEach((level, i) => {
      near(curve.crossing(level), printed[i]!, decimals);
    });
  });

  test.each(Object.entries(fixture.dmax))(
    'greatest distance from the chord of the fitted %s',
    (model, printed) => {
      const curve = fitted(model as CurveId);
      near(
        curve.tangentAt((curve.at(curve.hi) - curve.at(curve.lo)) / (curve.hi - curve.lo)),
        printed,
        decimals,
      );
    },
  );
});

describe('test 10_pre', () => {
  // R 4.2.2: lm, uniroot; the log–log bend by package segmented, which prints 263.6141909.
  test('cubic crossings, residual SD and log–log bend as R has them', () => {
    const cubic = fitCurve(TEN_PRE, { model: 'cubic' });
    expectDigits(cubic.crossing(4), 342.9644446416, { atLeast: 12 });
    expectDigits(cubic.crossing(2), 307.138346, { atLeast: 8.5 });
    expectDigits(Math.sqrt(cubic.sse / 4), 0.1829588886, { atLeast: 9 });
    const logLog = logLogOn(TEN_PRE.x);
    logLog.fit(TEN_PRE.y);
    expectDigits(logLog.intensity, 263.6141909, { atLeast: 9 });
  });

  test('closed forms of the greatest distance from a chord', () => {
    const cubic = fitCurve(TEN_PRE, { model: 'cubic' }) as unknown as PolynomialCurve;
    const [, c1, c2, c3] = cubic.coefficients;
    // Expected values by mpmath from exact normal equations, 40 digits.
    // Chord through the fitted ends, slope c1 + c3 in u: 3c₃u² + 2c₂u − c₃ = 0 in the form without cancellation.
    const u = c3! / (c2! + Math.sqrt(c2! ** 2 + 3 * c3! ** 2));
    expectDigits(cubic.tangentAt((c1! + c3!) / 112.5), 237.5 + 112.5 * u, { atLeast: 13 });
    expectDigits(237.5 + 112.5 * u, 273.0166021943832, { atLeast: 13 });
    const measured = (4.69 - 0.93) / 225;
    expectDigits(cubic.tangentAt(measured), 273.7473980564, { atLeast: 12 });
    const exponential = fitCurve(TEN_PRE, { model: 'exponential' }) as unknown as ExponentialCurve;
    const g = exponential.growth;
    const chord = (exponential.at(350) - exponential.at(125)) / 225;
    expectDigits(exponential.tangentAt(chord), 125 + (225 * Math.log(Math.expm1(g) / g)) / g, {
      atLeast: 13,
    });
  });
});
