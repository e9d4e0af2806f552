import { describe, expect, test } from 'vitest';
import { areReversed, bandProbabilities, trainingBands } from '../../src/physiology/bands.ts';
import { HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { heartRateAt, heartRatesOf } from '../../src/physiology/heartRate.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { REFUSAL_CODES } from '../../src/physiology/refusalCodes.ts';
import { sampleThresholds } from '../../src/physiology/samplingError.ts';
import { secondThresholdOf } from '../../src/physiology/training/sessionLevel.ts';
import { zoneThresholdsOf } from '../../src/physiology/training/timeInZone.ts';
import { stepTest, TEN_PRE } from './stepTests.ts';

const readings = usableReadings(TEN_PRE);
const heartRates = heartRatesOf(TEN_PRE);
const result = sampleThresholds(readings, { error: HANDHELD, draws: 4000, seed: 9, heartRates });
const choice = { lt1: 'minimum-equivalent', lt2: 'fixed-3.5', heartRates };

/** Draws of one method without those that have no answer; a threshold above the tested range is infinite. */
function plainDraws(id: string, scale: (d: number) => number): number[] {
  const { x, code } = result.joint.methods.get(id)!;
  const above = REFUSAL_CODES.indexOf('E_NOT_REACHED') + 1;
  return [...x.keys()].flatMap((d) => {
    if (code[d] === above) return [Infinity];
    return code[d] === 0 ? [x[d]! * scale(d)] : [];
  });
}

/** Quantile by plain sorting. */
function plainQuantile(id: string, p: number, scale = (d: number) => result.joint.scale[d]!): number {
  const values = plainDraws(id, scale).sort((a, b) => a - b);
  return values[Math.ceil(p * values.length) - 1]!;
}

describe('training bands', () => {
  const { bands, five } = trainingBands(result, choice);

  test('run from edge to edge, guarded by the 10 % and 90 % quantiles', () => {
    const edges = [
      plainQuantile('minimum-equivalent', 0.1),
      plainQuantile('minimum-equivalent', 0.9),
      plainQuantile('fixed-3.5', 0.1),
      plainQuantile('fixed-3.5', 0.9),
    ];
    expect(bands!.map((b) => [b.from, b.to])).toEqual([
      [null, edges[0]],
      [edges[0], edges[1]],
      [edges[1], edges[2]],
      [edges[2], edges[3]],
      [edges[3], null],
    ]);
    expect(bands!.map((b) => b.undecided)).toEqual([false, true, false, true, false]);
  });

  test('heart-rate limits are rounded into the band', () => {
    const [easy, , threshold] = bands!;
    const nominal = (id: string, p: number) =>
      heartRateAt(
        heartRates,
        plainQuantile(id, p, () => 1),
      )!;
    expect(easy!.heartRateTo).toBe(Math.floor(nominal('minimum-equivalent', 0.1)));
    expect(threshold!.heartRateFrom).toBe(Math.ceil(nominal('minimum-equivalent', 0.9)));
    expect(threshold!.heartRateTo).toBe(Math.floor(nominal('fixed-3.5', 0.1)));
    expect(easy!.heartRateFrom).toBeNull();
  });

  test('five bands lie at their shares of the two medians', () => {
    const [lt1, lt2] = [plainQuantile('minimum-equivalent', 0.5), plainQuantile('fixed-3.5', 0.5)];
    const expected = [0.88 * lt1, lt1, 0.97 * lt2, 1.03 * lt2];
    five!.slice(0, 4).forEach((b, i) => {
      expect(b.to).toBeCloseTo(expected[i]!, 9);
    });
    expect(five!.map((b) => b.name)).toEqual([
      'I, recovery',
      'II, long hours',
      'III, steady',
      'IV, threshold',
      'V, hard intervals',
    ]);
    expect(five!.at(-1)!.to).toBeNull();
  });

  test('thresholds that overlap within their error give no bands, and the reason', () => {
    const overlapping = trainingBands(result, { lt1: 'log-log', lt2: 'dmax' });
    expect(overlapping.bands).toBeNull();
    expect(overlapping.refused).toMatch(/Log–log and Dmax overlap/);
  });

  test('a first threshold above the second is called what it is', () => {
    const reversed = trainingBands(result, { lt1: 'fixed-3.5', lt2: 'minimum-equivalent' });
    expect(reversed.refused).toMatch(
      /^Fixed 3\.5 lies above Minimum equivalent here: their order is reversed/,
    );
  });

  test('a method that refuses, or hardly answers, gives no bands', () => {
    const flat = usableReadings(stepTest([100, 150, 200, 250, 300], [1, 1, 1.2, 1.8, 3.9]));
    const sampled = sampleThresholds(flat, {
      error: { ...NO_ERROR, repeatability: 0.2 },
      draws: 400,
      seed: 1,
    });
    expect(trainingBands(sampled, { lt1: 'baseline-plus-0.5', lt2: 'fixed-4.0' }).refused).toMatch(
      /Fixed 4.0 gives no/,
    );
    const near = usableReadings(stepTest([100, 150, 200, 250, 300], [1, 1, 1.2, 1.8, 4.1]));
    const again = sampleThresholds(near, { error: { ...NO_ERROR, repeatability: 0.3 }, draws: 400, seed: 1 });
    expect(trainingBands(again, { lt1: 'baseline-plus-0.5', lt2: 'fixed-4.0' }).refused).toMatch(
      /% of the draws/,
    );
  });

  test('thresholds that lie apart give no bands while an outer edge lies beyond the tested range', () => {
    // One draw in six or so ends below 4: the 90 % quantile of the second threshold is nowhere, the 5 % quantile is.
    const late = usableReadings(stepTest([100, 150, 200, 250, 300], [1, 1, 1.2, 1.8, 4.2]));
    const sampled = sampleThresholds(late, {
      error: { ...NO_ERROR, repeatability: 0.2 },
      draws: 400,
      seed: 1,
    });
    const apart = trainingBands(sampled, { lt1: 'baseline-plus-0.5', lt2: 'fixed-4.0' });
    expect(apart.bands).toBeNull();
    expect(apart.refused).toBe(
      'The range of Baseline + 0.5 or Fixed 4.0 reaches beyond the tested intensities.',
    );
  });
});

describe('chances of the bands at an intensity', () => {
  test('by counting draws', () => {
    for (const watts of [200, 245, 300, 336, 350]) {
      const chances = bandProbabilities(result, choice, watts)!;
      expect(chances.below + chances.between + chances.above).toBeCloseTo(1, 12);
    }
    const { scale, methods } = result.joint;
    const lt1 = methods.get('minimum-equivalent')!.x;
    const lt2 = methods.get('fixed-3.5')!;
    const both = [...lt1.keys()].filter((d) => !Number.isNaN(lt1[d]!) && lt2.code[d] === 0);
    const below = both.filter((d) => 245 < lt1[d]! * scale[d]!).length / both.length;
    expect(bandProbabilities(result, choice, 245)!.below).toBeCloseTo(below, 2);
    expect(bandProbabilities(result, choice, 130)).toEqual({ below: 1, between: 0, above: 0 });
  });

  test('a threshold that is a stage stays where the stage is, as in the bands: the scale of the device does not move it', () => {
    // Only the scale is uncertain, so every draw answers with the same stage.
    const error = { ...NO_ERROR, intensityScale: 0.05 };
    const stages = sampleThresholds(readings, { error, draws: 400, seed: 1 });
    const byStage = { lt1: 'first-rise', lt2: 'fixed-4.0' };
    const [easy] = trainingBands(stages, byStage).bands!;
    expect(bandProbabilities(stages, byStage, easy!.to! - 1)).toMatchObject({ below: 1 });
    expect(bandProbabilities(stages, byStage, easy!.to! + 1)).toMatchObject({ below: 0 });
  });

  test('nothing is known outside the tested range', () => {
    expect(bandProbabilities(result, choice, 124)).toBeNull();
    expect(bandProbabilities(result, choice, 351)).toBeNull();
  });

  test('nothing is told of thresholds in reverse order', () => {
    expect(bandProbabilities(result, { lt1: choice.lt2, lt2: choice.lt1 }, 245)).toBeNull();
  });

  test('at a guard edge a tenth of the draws lie on the other side', () => {
    const { bands } = trainingBands(result, choice);
    expect(bandProbabilities(result, choice, bands![2]!.to!)!.above).toBeCloseTo(0.1, 2);
    expect(bandProbabilities(result, choice, bands![4]!.from!)!.above).toBeCloseTo(0.9, 2);
  });
});

test('a method that was not drawn is named, by whoever asks for it', () => {
  const few = sampleThresholds(readings, { methods: ['fixed-4.0'], error: HANDHELD, draws: 10, seed: 1 });
  const sentence = "these draws were made without the method 'dmax'";
  const other = { lt1: 'fixed-4.0', lt2: 'dmax' };
  expect(() => trainingBands(few, other)).toThrow(sentence);
  expect(() => bandProbabilities(few, other, 240)).toThrow(sentence);
  expect(() => areReversed(few, other.lt1, other.lt2)).toThrow(sentence);
  expect(() => secondThresholdOf(few, 'dmax')).toThrow(sentence);
  expect(() => zoneThresholdsOf(few, other)).toThrow(sentence);
});
