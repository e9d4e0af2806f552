import { describe, expect, test } from 'vitest';
import { type CurveReport, compareCurves, MODELS } from '../../../src/physiology/curves/index.ts';
import { expectDigits } from '../../digits.ts';
import r from '../../references/r/curves.json' with { type: 'json' };
import { A, readingsOf, TEN_PRE } from './shapes.ts';

/** The error model that tests/references/r/curves.R assumes, mmol/L. */
const sigmaOf = (y: Float64Array) => y.map((value) => Math.sqrt(0.15 ** 2 + (0.04 * value) ** 2));
const reportsOf = (readings: typeof A) => {
  const reports = compareCurves(readings, { sigma: sigmaOf(readings.y) });
  return Object.fromEntries(reports.map((report) => [report.model, report])) as Record<string, CurveReport>;
};

describe.each([
  ['10_pre', TEN_PRE],
  ['A', A],
] as const)('reports on test %s against R', (name, readings) => {
  const reports = reportsOf(readings);
  const expected = r.shapes[name];

  test.each(expected.polynomials)('polynomial of degree $degree', (lm) => {
    const report = reports[{ 2: 'quadratic', 3: 'cubic', 4: 'quartic' }[lm.degree]!]!;
    // R fits raw powers without scaling, which leaves it fewer digits as the degree rises.
    const value = report.parameters.map((p) => p.value);
    expectDigits(value, lm.coefficients, { atLeast: 8, what: 'coefficients' });
    const errors = report.parameters.map((p) => p.standardError!);
    expectDigits(errors, lm.se, { atLeast: 8, what: 'standard errors' });
    expectDigits(report.residualSd!, lm.sigma, { atLeast: 10, what: 'residual SD' });
    expectDigits(report.leaveOneOut!, lm.loo, { atLeast: 10, what: 'leave one out' });
    if (lm.aicc === null) expect(report.aicc).toBeNull();
    else expectDigits(report.aicc!, lm.aicc, { atLeast: 10, what: 'AICc' });
    expectDigits(report.inadequacy!.chiSquare, lm.chisq, { atLeast: 9, what: 'chi-square' });
    expectDigits(report.inadequacy!.p, lm.p, { atLeast: 9, what: 'p' });
    const worst = lm.rstudent.reduce<number>((most, t) => (Math.abs(t ?? 0) > Math.abs(most) ? t! : most), 0);
    expect(report.worst!.index).toBe(lm.rstudent.indexOf(worst));
    expectDigits(report.worst!.studentised, worst, { atLeast: 8, what: 'studentised' });
  });

  test('exponential', () => {
    const { coefficients, se, sigma, aicc, loo } = expected.exponential;
    const report = reports.exponential!;
    // nls stops at a relative step of about 1e-6 to 1e-9.
    expectDigits(
      report.parameters.map((p) => p.value),
      coefficients,
      { atLeast: 6 },
    );
    expectDigits(
      report.parameters.map((p) => p.standardError!),
      se,
      { atLeast: 6 },
    );
    expectDigits(report.residualSd!, sigma, { atLeast: 10 });
    expectDigits(report.aicc!, aicc, { atLeast: 10 });
    expectDigits(report.leaveOneOut!, loo, { atLeast: 6 });
  });
});

describe('what a report says and does not say', () => {
  const reports = reportsOf(A);

  test('every model that has enough stages is reported, in the order of the list', () => {
    expect(Object.keys(reports)).toEqual(Object.keys(MODELS));
    const few = readingsOf([100, 140, 180, 220], [1, 1.2, 1.9, 4]);
    expect(compareCurves(few).map((report) => report.model)).toEqual([
      'raw',
      'quadratic',
      'cubic',
      'exponential',
      'spline',
    ]);
    expect(compareCurves(A, { models: ['spline', 'raw'] }).map((report) => report.model)).toEqual([
      'spline',
      'raw',
    ]);
  });

  // By hand from the sums of squares of test A: two segments 0.123 with k = 5.
  test('AICc of two segments; none where n <= k + 1', () => {
    expectDigits(reports['two-segment']!.aicc!, 7 * Math.log(0.123 / 7) + 10 + 60, { atLeast: 12 });
    expect(reports['three-segment']!.aicc).toBeNull();
    expect(reports.quartic!.aicc).toBeNull();
  });

  test('the raw curve leaves no residual, so no SD, chi-square or AICc, but predicts readings left out', () => {
    const { residualSd, aicc, inadequacy, worst, signs, leaveOneOut } = reports.raw!;
    expect([residualSd, aicc, inadequacy, worst, signs]).toEqual([null, null, null, null, '0000000']);
    const { y } = A;
    const errors = [1, 2, 3, 4, 5].map((i) => y[i]! - (y[i - 1]! + y[i + 1]!) / 2);
    expectDigits(leaveOneOut!, Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / 5), { atLeast: 13 });
  });

  test('three segments through 7 stages cannot be predicted from 6', () => {
    expect(reports['three-segment']!.leaveOneOut).toBeNull();
  });

  test('signs in order', () => {
    // Residuals of the cubic: 0.9 − 0.735714…, and so on; the pattern of a curve too soft for a sharp bend.
    expect(reports.cubic!.signs).toBe('+−−++−+');
  });

  test('shape: the cubic’s inflection, a falling start, the lowest corners', () => {
    expect(reports.cubic!.shape.fallsAtStart).toBe(false);
    expect(reports.quadratic!.shape).toMatchObject({ inflections: [], fallsAtStart: true });
    // f″ = 0 at u = −c₂/(3c₃) = −3.43929/9.45
    expectDigits(reports.cubic!.shape.inflections, [220 - (120 * 3.4392857142857145) / 9.45], {
      atLeast: 12,
    });
    expect(reports.raw!.shape).toEqual({ inflections: [], minima: [140], fallsAtStart: true });
    expect(reports.exponential!.shape).toEqual({ inflections: [], minima: [], fallsAtStart: false });
    const wavy = readingsOf([1, 2, 3, 4, 5, 6, 7], [2, 1, 2, 3, 2, 1, 4]);
    const [raw, quartic] = compareCurves(wavy, { models: ['raw', 'quartic'] });
    expect(raw!.shape.minima).toEqual([2, 6]);
    expect(quartic!.shape.minima).toHaveLength(2);
  });

  test('a curve that does not fit is reported as such, with nothing made up', () => {
    const falling = readingsOf([100, 140, 180, 220, 260, 300, 340], [5, 3.2, 2.2, 1.6, 1.3, 1.1, 1]);
    const [report] = compareCurves(falling, { models: ['exponential'], sigma: sigmaOf(falling.y) });
    expect(report).toMatchObject({ status: 'singular', parameters: [], residualSd: null, aicc: null });
    expect(report).toMatchObject({ leaveOneOut: null, inadequacy: null, worst: null });
  });

  test('a perfect fit has no AICc', () => {
    const exact = readingsOf([1, 2, 3, 4, 5, 6, 7, 8], [1, 4, 9, 16, 25, 36, 49, 64]);
    const [report] = compareCurves(exact, { models: ['quadratic'] });
    expect(report).toMatchObject({ aicc: null, signs: '00000000' });
  });

  test('a stage sampled twice counts twice', () => {
    const twice = { ...A, count: Uint8Array.of(1, 1, 1, 1, 1, 2, 1) };
    const [single, double] = [A, twice].map((readings) => compareCurves(readings, { models: ['cubic'] })[0]!);
    expect(Math.abs(double!.residuals[5]!)).toBeLessThan(Math.abs(single!.residuals[5]!));
  });
});
