import { describe, expect, test } from 'vitest';
import { type ErrorModel, HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { firstOrderShares, oneAtATime, SOURCES } from '../../src/physiology/varianceShares.ts';
import reference from '../references/step-tests/monte_carlo.json' with { type: 'json' };
import { TEN_PRE } from './stepTests.ts';

const readings = usableReadings(TEN_PRE);
const raw = { curve: 'raw' } as const;
const fixed = (terms: Partial<ErrorModel>, options: { curve: 'raw' | 'cubic' } = raw) =>
  firstOrderShares(readings, { methods: ['fixed-4.0'], options, error: { ...NO_ERROR, ...terms } })[0]!;

// 4 mmol/L lies between 325 W (2.60) and 350 W (4.69), on straight lines at this share of the way.
const slope = (4.69 - 2.6) / 25;
const share = (4 - 2.6) / (4.69 - 2.6);

describe('to first order', () => {
  test.each<[Partial<ErrorModel>, number]>([
    [{ repeatability: 0.1 }, (0.1 * Math.hypot(share, 1 - share)) / slope],
    [{ offset: 0.1 }, 0.1 / slope],
    [{ gain: 0.03 }, (0.03 * 4) / slope],
    [{ rounding: 0.1 }, ((0.1 / Math.sqrt(12)) * Math.hypot(share, 1 - share)) / slope],
    [{ intensityScale: 0.02 }, 0.02 * 341.7464],
    [
      { delay: 10 },
      (10 * Math.hypot(((1 - share) * (2.6 - 1.69)) / 300, (share * (4.69 - 2.6)) / 300)) / slope,
    ],
  ])('%o on straight lines, by hand', (terms, expected) => {
    // Central differences are within the square of their step over the rise, 0.05/2.09, of the slope.
    expect(fixed(terms).sd / expected).toBeCloseTo(1, 2);
  });

  test('a cubic: the spread of a million draws of numpy', () => {
    const { sd } = reference['sd0.1'].cubic4;
    expect(Math.abs(fixed({ repeatability: 0.1 }, { curve: 'cubic' }).sd / sd - 1)).toBeLessThan(0.02);
  });

  test('shares add up; two readings carry all that readings have for themselves', () => {
    const { bySource, byReading } = fixed(HANDHELD);
    const { gain, offset, intensityScale } = bySource;
    expect(Object.values(bySource).reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12);
    expect(byReading.reduce((a, b) => a + b, 0)).toBeCloseTo(1 - gain - offset - intensityScale, 12);
    expect(byReading.slice(0, 6)).toEqual([0, 0, 0, 0, 0, 0]);
    expect(byReading[7]! / byReading[6]!).toBeGreaterThan(1);
  });

  test('calibration has no share in any Dmax, and the device none on its own scale', () => {
    const given = {
      methods: ['dmax', 'dmax-exponential'],
      error: HANDHELD,
      intensityScale: 'device' as const,
    };
    for (const dmax of firstOrderShares(readings, given)) {
      expect(dmax!.bySource.gain).toBeLessThan(1e-9);
      expect(dmax!.bySource.offset).toBeLessThan(1e-9);
      expect(dmax!.bySource.intensityScale).toBe(0);
      expect(dmax!.sd).toBeGreaterThan(0);
    }
  });

  test('a sample at rest has its own part where the baseline is one, and is given back as it was', () => {
    const rested = usableReadings({ ...TEN_PRE, restLactate: 1 });
    const error = { ...NO_ERROR, repeatability: 0.03 };
    const options = { baseline: 'rest', curve: 'raw' } as const;
    const [result] = firstOrderShares(rested, { methods: ['baseline-plus-1.0'], options, error });
    // Baseline + 1.0 lies between 300 W (1.69) and 325 W (2.60).
    const part = (2 - 1.69) / (2.6 - 1.69);
    expect(result!.sd / ((0.03 * Math.hypot(1, part, 1 - part)) / ((2.6 - 1.69) / 25))).toBeCloseTo(1, 2);
    const own = part ** 2 + (1 - part) ** 2;
    expect(result!.byReading.reduce((a, b) => a + b, 0)).toBeCloseTo(own / (1 + own), 2);
    expect(rested.restLactate).toBe(1);
  });

  test('stages and refusals have none, and no error gives no share', () => {
    const error = { ...NO_ERROR };
    const given = { methods: ['first-rise', 'steady-state-bouts'], error: HANDHELD };
    expect(firstOrderShares(readings, given)).toEqual([null, null]);
    expect(firstOrderShares(readings, { methods: ['dmax'], error })[0]).toMatchObject({ sd: 0 });
    expect(Object.values(fixed({}).bySource)).toEqual(Object.keys(SOURCES).map(() => 0));
  });
});

describe('one at a time', () => {
  const draws = 8000;
  const given = { methods: ['fixed-4.0', 'dmax'], error: HANDHELD, seed: 3, draws };
  const [level, dmax] = oneAtATime(readings, { ...given, intensityScale: 'device' });

  test('each source alone gives what first order says, where the method is straight over it', () => {
    const { sd, bySource } = firstOrderShares(readings, { ...given, intensityScale: 'device' })[0]!;
    for (const source of ['rounding', 'delay', 'offset'] as const) {
      const expected = sd * Math.sqrt(bySource[source]);
      // Four standard errors of a standard deviation are 3 %; beyond a reading the lines have another slope.
      expect(Math.abs(level!.alone[source]! / expected - 1), source).toBeLessThan(0.08);
    }
  });

  test('sources that are off for a method give nothing; together they give more than any one', () => {
    expect(dmax!.alone.gain).toBeLessThan(1e-6);
    expect(level!.alone.intensityScale).toBeLessThan(1e-6);
    for (const alone of Object.values(level!.alone)) expect(alone!).toBeLessThan(level!.all!);
  });
});
