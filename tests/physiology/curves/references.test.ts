import { describe, expect, test } from 'vitest';
import {
  type ExponentialCurve,
  fitCurve,
  LogLogFit,
  type PolynomialCurve,
  type SegmentedCurve,
} from '../../../src/physiology/curves/index.ts';
import { expectDigits } from '../../digits.ts';
import reference from '../../references/scipy/curves.json' with { type: 'json' };

// tests/references/scipy/curves.py made these by other means: 40-digit arithmetic for polynomials and exponential,
// numerical search for the segments, scipy's own smoothing spline.
const shapes = Object.entries(reference.shapes).map(([name, { x, y, count, fits }]) => ({
  name,
  fits: fits as Fits,
  readings: { x: Float64Array.from(x), y: Float64Array.from(y), count: Uint8Array.from(count) },
}));

interface Crossings {
  at2?: number | null;
  at4?: number | null;
}
type Polynomial = Crossings & { coefficients: number[]; sse: number; lowest: number };
interface Segments {
  status: string;
  breakpoints?: number[];
  sse?: number;
}
interface Fits {
  quadratic: Polynomial;
  cubic: Polynomial;
  quartic: Polynomial;
  exponential: Crossings & {
    status: string;
    constant?: number;
    amplitude?: number;
    rate?: number;
    sse?: number;
  };
  'two-segment': Segments;
  'three-segment'?: Segments;
  logLog: Segments;
  spline: {
    fitted: number[];
    places: number[];
    between: number[];
    slopes: number[];
    curvatures: number[];
  };
}

const expectCrossing = (got: number, expected: number | null | undefined) => {
  if (expected === null || expected === undefined) expect(got).toBeNaN();
  else expectDigits(got, expected, { atLeast: 11, what: 'crossing' });
};

describe.each(shapes)('$name', ({ readings, fits }) => {
  test.each(['quadratic', 'cubic', 'quartic'] as const)('%s', (model) => {
    const curve = fitCurve(readings, { model }) as unknown as PolynomialCurve & { sse: number };
    const { coefficients, sse, lowest, at2, at4 } = fits[model];
    // Small coefficients stand beside large ones: what counts is their error against the readings' size.
    const scale = Math.max(...readings.y);
    coefficients.forEach((c, k) => {
      expect(Math.abs(curve.coefficients[k]! - c) / scale).toBeLessThan(1e-13);
    });
    expectDigits(curve.sse, sse, { atLeast: sse > 1e-20 ? 10 : -12, what: 'sse' });
    if (sse <= 1e-20) expect(curve.sse).toBeLessThan(1e-25);
    expectDigits(curve.lowest(), lowest, { atLeast: 10, what: 'lowest' });
    expectCrossing(curve.crossing(2), at2);
    expectCrossing(curve.crossing(4), at4);
  });

  test('exponential', () => {
    const curve = fitCurve(readings, { model: 'exponential' }) as unknown as ExponentialCurve & {
      sse: number;
    };
    expect(curve.status).toBe(fits.exponential.status);
    if (curve.status !== 'ok') return;
    const { constant, amplitude, rate, sse, at2, at4 } = fits.exponential;
    expectDigits(curve.rate, rate!, { atLeast: 10, what: 'rate' });
    expectDigits(curve.constant, constant!, { atLeast: 10, what: 'constant' });
    expectDigits(curve.amplitude, amplitude!, { atLeast: 10, what: 'amplitude' });
    expectDigits(curve.sse, sse!, { atLeast: 11, what: 'sse' });
    expectCrossing(curve.crossing(2), at2);
    expectCrossing(curve.crossing(4), at4);
  });

  test.each(['two-segment', 'three-segment'] as const)('%s', (model) => {
    const expected = fits[model];
    if (expected === undefined) {
      expect(() => fitCurve(readings, { model })).toThrow('needs at least 7 stages');
      return;
    }
    const curve = fitCurve(readings, { model }) as unknown as SegmentedCurve & { sse: number };
    expect(curve.status).toBe(expected.status);
    expectDigits(curve.sse, expected.sse!, { atLeast: 10, what: 'sse' });
    expectDigits(curve.breakpoints, expected.breakpoints!, { atLeast: 6, what: 'breakpoints' });
  });

  test('log–log', () => {
    const { x, y, count } = readings;
    const fit = new LogLogFit(x, Float64Array.from(count));
    expect(fit.fit(y)).toBe(fits.logLog.status);
    if (fit.status === 'ok') {
      expectDigits(Math.log(fit.intensity), fits.logLog.breakpoints![0]!, { atLeast: 6 });
    }
  });

  test('spline', () => {
    const curve = fitCurve(readings, { model: 'spline' });
    const { fitted, places, between, slopes, curvatures } = fits.spline;
    const width = curve.hi - curve.lo;
    const at = places.map((z) => curve.lo + z * width);
    expectDigits(
      readings.x.map((x) => curve.at(x)),
      fitted,
      { atLeast: 9 },
    );
    expectDigits(
      at.map((x) => curve.at(x)),
      between,
      { atLeast: 9 },
    );
    expectDigits(
      at.map((x) => curve.slope(x) * width),
      slopes,
      { atLeast: 8 },
    );
    expectDigits(
      at.map((x) => curve.curvature(x) * width ** 2),
      curvatures,
      { atLeast: 7 },
    );
  });
});
