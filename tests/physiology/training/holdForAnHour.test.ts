import { describe, expect, test } from 'vitest';
import { Random } from '../../../src/numerics/random.ts';
import type { BestEfforts, EffortKind } from '../../../src/physiology/training/bestEfforts.ts';
import { enduranceIntensity, enduranceSeconds } from '../../../src/physiology/training/fromThreshold.ts';
import {
  HOUR,
  type HourAnswer,
  type HourOptions,
  holdForAnHour,
} from '../../../src/physiology/training/holdForAnHour.ts';
import { waysFromEfforts } from '../../../src/physiology/training/hourSources.ts';
import { shiftSince } from '../../../src/physiology/training/trainingBreak.ts';

interface Given extends Omit<HourOptions, 'fromEfforts'> {
  efforts: BestEfforts | null;
  /** Draws of the efforts. */
  count?: number;
}

const hourOf = ({ efforts, count, ...options }: Given): HourAnswer =>
  holdForAnHour({
    ...options,
    fromEfforts: waysFromEfforts(efforts, { seed: options.seed, ...(count && { count }) }),
  });

const effortsOf = (pairs: [number, number][], kind: EffortKind = 'time-trial'): BestEfforts => ({
  sport: 'cycling',
  axis: 'power',
  kind,
  efforts: pairs.map(([seconds, intensity], row) => ({ row, seconds, intensity })),
  notes: [],
});
const exactly = (lt2: number, count = 4000) => ({ draws: new Float64Array(count).fill(lt2), middle: lt2 });
const base = { efforts: null, threshold: null, level: 'trained' as const, claim: null, seed: 1 };
const way = (answer: HourAnswer, id: string) => answer.ways.find((w) => w.id === id)!;

describe('from the second threshold alone', () => {
  test.each([
    ['moderate', 37],
    ['trained', 50],
    ['well-trained', 75],
  ] as const)('%s: the chance to hold it for an hour is that of the log-normal time', (level, minutes) => {
    const answer = hourOf({ ...base, level, threshold: exactly(300), claim: 300 });
    // 1 − Φ(ln(60/minutes)/0.35), by scipy.stats.norm.sf.
    const expected = { 37: 0.0836, 50: 0.3012, 75: 0.7381 }[minutes];
    const error = Math.sqrt((expected * (1 - expected)) / 4000);
    expect(Math.abs(answer.chance! - expected)).toBeLessThan(4 * error);
  });

  test('the median hour is near 0.97, 0.99 and 1.02 of the threshold', () => {
    const ratios = (['moderate', 'trained', 'well-trained'] as const).map(
      (level) => hourOf({ ...base, level, threshold: exactly(300) }).hour!.median / 300,
    );
    // (minutes/60)^0.07, by hand; the standard error of the median at a spread of 0.35·0.07 over 4000 draws is 0.0005.
    expect(Math.abs(ratios[0]! - 0.967)).toBeLessThan(0.003);
    expect(Math.abs(ratios[1]! - 0.987)).toBeLessThan(0.003);
    expect(Math.abs(ratios[2]! - 1.016)).toBeLessThan(0.003);
  });

  test('times at the threshold cover what was measured: 37.7 ± 8.9 min (Fontana 2009), 76 ± 14 min (Pallarés 2020)', () => {
    for (const [level, measured] of [
      ['moderate', 37.7],
      ['well-trained', 76.1],
    ] as const) {
      const { atClaim } = way(
        hourOf({ ...base, level, threshold: exactly(247), claim: 247 }),
        'second-threshold',
      );
      expect(Math.abs(atClaim!.median / 60 - measured)).toBeLessThan(0.05 * measured);
      expect(atClaim!.low / 60).toBeLessThan(measured - 9);
      expect(atClaim!.high / 60).toBeGreaterThan(measured + 14);
    }
  });

  test('draws beyond the tested range stay open ends', () => {
    const draws = new Float64Array(1000).map((_, i) => (i < 100 ? Number.POSITIVE_INFINITY : 300));
    const { hour } = hourOf({ ...base, threshold: { draws, middle: 300 } });
    expect(hour!.high).toBe(Number.POSITIVE_INFINITY);
    expect(enduranceSeconds({ lt2: Number.NEGATIVE_INFINITY, seconds: 3000, exponent: 0.07 }, 200)).toBe(0);
    expect(enduranceSeconds({ lt2: Number.POSITIVE_INFINITY, seconds: 3000, exponent: 0.07 }, 200)).toBe(
      Number.POSITIVE_INFINITY,
    );
  });

  test('intensity and time are each other’s inverse', () => {
    const endurance = { lt2: 280, seconds: 3000, exponent: 0.06 };
    expect(enduranceSeconds(endurance, enduranceIntensity(endurance, HOUR))).toBeCloseTo(HOUR, 6);
  });
});

describe('from best efforts', () => {
  test('three short efforts: critical power and power law are shown, and neither answers for an hour', () => {
    const answer = hourOf({
      ...base,
      efforts: effortsOf([
        [180, 410],
        [360, 355],
        [720, 327],
      ]),
      claim: 290,
    });
    expect(answer.hour).toBeNull();
    expect(answer.chance).toBeNull();
    // By hand: 1/time regression gives 299.5 W and 19.9 kJ, 305 W for an hour; the power law gives 249 W.
    expect(way(answer, 'critical-power').hour!.median).toBeCloseTo(305, -1);
    expect(way(answer, 'power-law').hour!.median).toBeCloseTo(249, -1);
    expect(way(answer, 'critical-power').why).toMatch(/outside its range: it holds from 2 to 20 min/);
    expect(way(answer, 'power-law').why).toMatch(/outside its range/);
  });

  test.each(['time-trial', 'exhaustion'] as const)(
    'critical power never counts, however long the efforts: %s',
    (kind) => {
      const pairs: [number, number][] = [180, 600, 1200, 3600].map((t) => [t, 280 + 20_000 / t]);
      const answer = hourOf({ ...base, efforts: effortsOf(pairs, kind), claim: 270 });
      expect(answer.ways.filter((w) => w.counts).map((w) => w.id)).toEqual(['power-law', 'log-time-decline']);
      expect(way(answer, 'critical-power').atClaim!.high).toBe(Number.POSITIVE_INFINITY);
    },
  );

  test('the spread of the power law is that of first-order theory', () => {
    const seconds = [180, 720, 1800, 3000];
    const pairs = seconds.map((t): [number, number] => [t, 700 * t ** -0.11]);
    const answer = hourOf({ ...base, efforts: effortsOf(pairs), count: 4000 });
    const { hour } = way(answer, 'power-law');
    // Var(ln P60) = 0.02²·(1/n + (x − x̄)²/Sxx), with x = ln 3600.
    const x = seconds.map(Math.log);
    const mean = x.reduce((a, b) => a + b) / x.length;
    const sxx = x.reduce((sum, value) => sum + (value - mean) ** 2, 0);
    const sd = 0.02 * Math.sqrt(1 / x.length + (Math.log(HOUR) - mean) ** 2 / sxx);
    const width = Math.log(hour!.high / hour!.low) / (2 * 1.96);
    // Quantiles at 2.5 and 97.5 % of 4000 draws: standard error of each 0.042 sd, of their half difference over 1.96 less.
    expect(Math.abs(width / sd - 1)).toBeLessThan(4 * 0.016);
    expect(Math.abs(hour!.median / (700 * HOUR ** -0.11) - 1)).toBeLessThan(
      (4 * 1.25 * sd) / Math.sqrt(4000),
    );
  });

  test('95 % intervals of the power law hold the truth in 95 of 100 athletes', () => {
    const random = new Random(20);
    const repeats = 250;
    let held = 0;
    for (let k = 0; k < repeats; k++) {
      const pairs = [300, 900, 2400].map((t): [number, number] => [
        t,
        700 * t ** -0.11 * (1 + 0.02 * random.normal()),
      ]);
      const { hour } = way(hourOf({ ...base, efforts: effortsOf(pairs), count: 200, seed: k }), 'power-law');
      const truth = 700 * HOUR ** -0.11;
      if (hour!.low <= truth && truth <= hour!.high) held++;
    }
    // Four standard errors of a share of 0.95 over 250; order statistics of 200 draws cost half a point of coverage.
    const error = Math.sqrt((0.95 * 0.05) / repeats);
    expect(Math.abs(held / repeats - 0.945)).toBeLessThan(4 * error);
  });

  test('group means of trained cyclists (Pallarés 2020, abstract): 247 W for 76 min, so a little more for 60', () => {
    const efforts = effortsOf(
      [
        [689, 302],
        [4565, 247],
      ],
      'exhaustion',
    );
    const answer = hourOf({ ...base, efforts });
    for (const id of ['power-law', 'log-time-decline']) {
      expect(way(answer, id).hour!.median).toBeGreaterThan(247);
      expect(way(answer, id).hour!.median).toBeLessThan(260);
    }
  });
});

describe('all ways together', () => {
  const pairs: [number, number][] = [180, 720, 1800, 3000].map((t) => [t, 700 * t ** -0.11]);
  const efforts = effortsOf(pairs);

  test('each way counts alike in the chance, however many draws it has', () => {
    const together = hourOf({ ...base, efforts, threshold: exactly(290, 200), claim: 285 });
    const counting = together.ways.filter((w) => w.counts);
    const alone = counting.map(({ draws }) => {
      const hours = draws.map((curve) => curve?.intensityFor(HOUR) ?? NaN).filter((v) => !Number.isNaN(v));
      return hours.filter((v) => v >= 285).length / hours.length;
    });
    expect(counting).toHaveLength(3);
    expect(together.chance).toBeCloseTo(alone.reduce((a, b) => a + b) / 3, 12);
  });

  test('a break moves the answer down by its range and a long one takes it away', () => {
    const options = { ...base, threshold: exactly(300) };
    const [fresh, rested] = [0, 14].map((days) =>
      hourOf({ ...options, since: { days, daysWithoutTraining: days } }),
    );
    const loss = 1 - rested!.hour!.median / fresh!.hour!.median;
    expect(loss).toBeGreaterThan(0.02);
    expect(loss).toBeLessThan(0.05);
    expect(rested!.asTested).toEqual(fresh!.asTested);
    const long = hourOf({ ...options, since: { days: 60, daysWithoutTraining: 60 }, claim: 280 });
    expect(long.hour).toBeNull();
    expect(long.chance).toBeNull();
    expect(long.shift.retest).toBe(true);
  });

  test('an allowance lowers every draw by its share', () => {
    const [none, some] = [0, 0.04].map((allowance) =>
      hourOf({ ...base, threshold: exactly(300), allowance }),
    );
    expect(some!.hour!.median / none!.hour!.median).toBeCloseTo(0.96, 10);
  });

  test('a critical power below the second threshold, or far above it, is called a disagreement', () => {
    const at = (lt2: number) =>
      hourOf({
        ...base,
        efforts: effortsOf([180, 600, 1200].map((t) => [t, 280 + 20_000 / t])),
        threshold: exactly(lt2, 500),
      });
    expect(at(300).disagreements[0]).toMatch(/lies below the second threshold/);
    expect(at(230).disagreements[0]).toMatch(/22 % above/);
    expect(at(270).disagreements).toEqual([]);
  });

  test('nothing to go by gives nothing', () => {
    expect(hourOf(base)).toMatchObject({ ways: [], hour: null, chance: null });
  });

  test('the same seed gives the same answer', () => {
    const options = { ...base, efforts, threshold: exactly(290, 300), claim: 285 };
    expect(hourOf(options).hour).toEqual(hourOf(options).hour);
    expect(hourOf({ ...options, seed: 2 }).hour).not.toEqual(hourOf(options).hour);
  });
});

describe('time since the test', () => {
  test.each([
    [0, 0, 0],
    [5, -0.02, 0],
    [10, -0.02, 0],
    [11, -0.05, -0.02],
    [21, -0.05, -0.02],
    [56, -0.1, -0.04],
  ])('%i days off', (days, low, high) => {
    expect(shiftSince({ days, daysWithoutTraining: days })).toMatchObject({
      low,
      high,
      retest: false,
      sd: 0,
    });
  });

  test('a test grows old while training goes on: 0.15 % a day after day 28', () => {
    expect(shiftSince({ days: 48, daysWithoutTraining: 0 }).sd).toBeCloseTo(0.03, 12);
    expect(shiftSince({ days: 48, daysWithoutTraining: 20 }).sd).toBe(0);
  });

  test('the losses lie within what studies of a stop found for oxygen uptake (Coyle 1984, from memory)', () => {
    // −7 % at 12–21 days, −14 to −16 % at 56–84 days: an hour may lose no more than that.
    expect(shiftSince({ days: 21, daysWithoutTraining: 21 }).low).toBeGreaterThanOrEqual(-0.07);
    expect(shiftSince({ days: 56, daysWithoutTraining: 56 }).low).toBeGreaterThanOrEqual(-0.16);
  });
});
