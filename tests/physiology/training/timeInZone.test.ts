import { describe, expect, test } from 'vitest';
import { stepTestFromText } from '../../../src/data-in/fromText.ts';
import { NO_ERROR } from '../../../src/physiology/errorModel.ts';
import { usableReadings } from '../../../src/physiology/readings.ts';
import { sampleThresholds } from '../../../src/physiology/samplingError.ts';
import { patternOf, polarizationIndex } from '../../../src/physiology/training/polarization.ts';
import {
  sharesByGoal,
  type TrainingPiece,
  timeInZone,
  zoneThresholdsOf,
} from '../../../src/physiology/training/timeInZone.ts';
import { expectDigits } from '../../digits.ts';
// The formula of Treff 2019 (Front Physiol 10:707) by numpy, physiology.py.
import physiology from '../../references/training/physiology.json' with { type: 'json' };

const shares = ([easy, threshold, hard]: readonly number[]) => ({
  easy: easy!,
  threshold: threshold!,
  hard: hard!,
});

describe('polarization index', () => {
  test.each(physiology.polarization_index.examples)('$z', ({ z, pi }) => {
    expectDigits(polarizationIndex(shares(z)), pi, { atLeast: 10 });
  });

  test('no hard work is 0, more hard than easy is not defined', () => {
    expect(polarizationIndex(shares([0.9, 0.1, 0]))).toBe(0);
    expect(polarizationIndex(shares([0.3, 0.1, 0.6]))).toBeNaN();
    expect(polarizationIndex(shares([0.995, 0, 0.005]))).toBe(0);
  });

  test.each([
    [[0.8, 0.05, 0.15], 'polarized'],
    [[0.78, 0.14, 0.08], 'pyramidal'],
    [[0.46, 0.35, 0.19], 'pyramidal'],
    [[0.5, 0.4, 0.1], 'threshold'],
    // Hard above threshold work, but the index is 1.95: neither.
    [[0.9, 0.05, 0.05], 'none'],
    [[0.3, 0.1, 0.6], 'none'],
  ] as const)('%j is %s', (z, pattern) => {
    expect(patternOf(shares(z))).toBe(pattern);
  });
});

const piece = (
  minutes: number,
  intensity: number | null,
  heartRate: number | null = null,
): TrainingPiece => ({
  row: 0,
  session: null,
  minutes,
  intensity,
  heartRate,
  goal: null,
});
const constant = (value: number, count = 100) => new Float64Array(count).fill(value);

describe('time in zone', () => {
  const week = [piece(480, 160), piece(30, 260), piece(90, 320)];

  test('without error of the thresholds it is plain arithmetic', () => {
    const got = timeInZone(week, { lt1: constant(220), lt2: constant(290), heartRate: null })!;
    expect(got.easy).toEqual({
      median: expect.closeTo(0.8, 12),
      low: expect.closeTo(0.8, 12),
      high: expect.closeTo(0.8, 12),
    });
    expect(got.hard.median).toBeCloseTo(0.15, 12);
    expect(got.index!.median).toBeCloseTo(2.3802, 4);
    expect(got.patterns.polarized).toBeCloseTo(1, 12);
  });

  test('a threshold that may lie on either side of a piece gives an interval and splits the pattern', () => {
    const lt2 = new Float64Array(100).map((_, d) => (d < 30 ? 325 : 290));
    const got = timeInZone(week, { lt1: constant(220), lt2, heartRate: null })!;
    expect(got.hard.low).toBe(0);
    expect(got.hard.high).toBeCloseTo(0.15, 12);
    expect(got.patterns.polarized).toBeCloseTo(0.7, 12);
    expect(got.index!.low).toBe(0);
  });

  test('heart rate serves where no intensity was recorded, and nothing is made up without it', () => {
    const pieces = [piece(40, null, 130), piece(20, null, 165), piece(10, null, 175)];
    const got = timeInZone(pieces, {
      lt1: constant(220),
      lt2: constant(320),
      heartRate: { lt1: constant(141), lt2: constant(171) },
    })!;
    expect(got.easy.median).toBeCloseTo(4 / 7, 12);
    expect(got.threshold.median).toBeCloseTo(2 / 7, 12);
    expect(timeInZone(pieces, { lt1: constant(220), lt2: constant(320), heartRate: null })).toBeNull();
    const partly = timeInZone([...pieces, piece(30, 200)], {
      lt1: constant(220),
      lt2: constant(320),
      heartRate: null,
    })!;
    expect(partly).toMatchObject({ minutes: 30, uncounted: 70 });
  });

  test('draws without an answer are left out; without any there is no result', () => {
    const lt1 = new Float64Array(100).map((_, d) => (d < 40 ? NaN : 220));
    expect(timeInZone(week, { lt1, lt2: constant(290), heartRate: null })!.draws).toBe(60);
    expect(timeInZone(week, { lt1: constant(NaN), lt2: constant(290), heartRate: null })).toBeNull();
  });

  test('a threshold above the tested range leaves everything below it', () => {
    expect(
      timeInZone(week, { lt1: constant(220), lt2: constant(Number.POSITIVE_INFINITY), heartRate: null })!.hard
        .high,
    ).toBe(0);
  });

  test('minutes above LT2 in sessions that were not meant to be hard, with the error of LT2', () => {
    const named = (session: string, minutes: number, intensity: number, goal: TrainingPiece['goal']) => ({
      ...piece(minutes, intensity),
      session,
      goal,
    });
    const pieces = [
      named('a', 30, 300, 'threshold'),
      named('b', 20, 320, 'hard'),
      named('c', 90, 150, 'easy'),
    ];
    const lt2 = new Float64Array(100).map((_, d) => (d < 20 ? 305 : 290));
    const got = timeInZone(pieces, { lt1: constant(220), lt2, heartRate: null })!;
    expect(got.harderThanMeant).toEqual({ median: 30, low: 0, high: 30 });
    expect(timeInZone(week, { lt1: constant(220), lt2, heartRate: null })!.harderThanMeant).toBeNull();
  });

  test('order and splitting of pieces change nothing', () => {
    const thresholds = { lt1: constant(220), lt2: constant(290), heartRate: null };
    const split = [piece(45, 320), piece(30, 260), piece(480, 160), piece(45, 320)];
    expect(timeInZone(split, thresholds)!.index!.median).toBeCloseTo(
      timeInZone(week, thresholds)!.index!.median,
      10,
    );
  });
});

describe('thresholds for sorting training', () => {
  const readings = usableReadings(
    stepTestFromText(
      'power (W),heart rate,lactate\n120,110,1.1\n160,122,1.0\n200,136,1.2\n240,150,1.8\n280,164,3.4\n320,178,7.2\n',
    ),
  );
  const chosen = { lt1: 'baseline-plus-0.5', lt2: 'fixed-4.0' };
  const error = { ...NO_ERROR, intensityScale: 0.02 };
  const sampled = (intensityScale: 'device' | 'true') =>
    sampleThresholds(readings, { methods: Object.values(chosen), error, seed: 3, draws: 50, intensityScale });

  test('heart rate is that at the nominal threshold, whichever scale the intensities are on', () => {
    const heartRates = { x: [120, 320], bpm: [110, 180] };
    const device = zoneThresholdsOf(sampled('device'), { ...chosen, heartRates });
    const exact = zoneThresholdsOf(sampled('true'), { ...chosen, heartRates });
    expect(exact.lt2).not.toEqual(device.lt2);
    expect(exact.heartRate!.lt2).toEqual(device.heartRate!.lt2);
    expect(device.heartRate!.lt2[0]).toBeCloseTo(110 + 0.35 * (device.lt2[0]! - 120), 9);
  });

  test('a threshold beyond the stages with heart rate lies beyond all of them', () => {
    const heartRates = { x: [120, 200], bpm: [110, 136] };
    expect(zoneThresholdsOf(sampled('device'), { ...chosen, heartRates }).heartRate!.lt2[0]).toBe(
      Number.POSITIVE_INFINITY,
    );
    expect(zoneThresholdsOf(sampled('device'), chosen).heartRate).toBeNull();
  });
});

describe('by the goal of sessions', () => {
  const session = (name: string, goal: TrainingPiece['goal'], row: number): TrainingPiece => ({
    ...piece(30, 200),
    session: name,
    goal,
    row,
  });

  test('each session counts once', () => {
    const week = [
      session('Mon', 'easy', 0),
      session('Tue', 'hard', 1),
      session('Tue', null, 2),
      session('Wed', 'easy', 3),
    ];
    expect(sharesByGoal(week)).toEqual({ easy: 2 / 3, threshold: 0, hard: 1 / 3 });
  });

  test('a session that does not say leaves the question open', () => {
    expect(sharesByGoal([session('Mon', 'easy', 0), session('Tue', null, 1)])).toBeNull();
  });
});
