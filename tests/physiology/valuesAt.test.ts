import { describe, expect, test } from 'vitest';
import { agreementOf } from '../../src/physiology/agreement.ts';
import { readingsOf } from '../../src/physiology/boutReadings.ts';
import { endPointResults } from '../../src/physiology/endPointResults.ts';
import { HANDHELD, NO_ERROR } from '../../src/physiology/errorModel.ts';
import { isotonic } from '../../src/physiology/isotonic.ts';
import { sampleThresholds } from '../../src/physiology/samplingError.ts';
import type { StepTest } from '../../src/physiology/stepTest.ts';
import { valuesAt } from '../../src/physiology/valuesAt.ts';
import { REAL, stepTest, TEN_PRE } from './stepTests.ts';

const x = [125, 175, 225, 250, 275, 300, 325, 350];
const uptakes = [2100, 2600, 3150, 3400, 3700, 3950, 4150, 4300];
const given: StepTest = {
  ...stepTest(x, [0.93, 0.87, 0.86, 0.92, 1.2, 1.69, 2.6, 4.69], {
    heartRate: [115, 127, 138, 148, 154, 160, 164, 168],
    rpe: [8, 9, 11, 10, 13, 12.5, 12, 17],
    stageMinutes: 5,
    bodyMass: 70,
  }),
  oxygenUptakeUnit: 'ml/min',
};
const measured: StepTest = {
  ...given,
  stages: given.stages.map((stage, i) => ({ ...stage, oxygenUptake: uptakes[i]! })),
};

describe('values at a threshold', () => {
  test('exertion by R’s isoreg, on straight lines between stages, to half a point', () => {
    const rising = [8, 9, 10.5, 10.5, 12.5, 12.5, 12.5, 17];
    expect(isotonic([8, 9, 11, 10, 13, 12.5, 12, 17])).toEqual(rising);
    // Half way from 12.5 at 325 W to 17 at 350 W: 14.75.
    expect(valuesAt(given, 337.5).rpe).toBe(15);
    expect(valuesAt(given, 262.5).rpe).toBe(11.5);
    expect(valuesAt(given, 351).rpe).toBeNull();
  });

  test('heart rate on a line by R’s lm through the stages below 95 % of the highest', () => {
    const values = valuesAt(given, 310);
    expect(values.heartRateOnLine).toBeCloseTo(162.468965517, 8);
    expect(values.heartRate).toBeCloseTo(160 + 0.4 * 4, 12);
    expect(values.heartRateShare).toBeCloseTo(161.6 / 168, 12);
    expect(values.warnings.join(' ')).toBe('');
  });

  test('a line that does not fit, or lies far from the stages beside it, says so', () => {
    const bent = given.stages.map((s, i) => ({
      ...s,
      heartRate: [90, 120, 140, 148, 152, 154, 155, 185][i]!,
    }));
    const said = valuesAt({ ...given, stages: bent }, 130).warnings.join(' ');
    expect(said).toMatch(/scatters by \d+\.\d bpm/);
    expect(said).toMatch(/differ by more than 4 bpm/);
  });

  test('oxygen uptake by R’s lm up to the second threshold, flagged above it', () => {
    const below = valuesAt(measured, 260, { lt2: 280 });
    expect(below.oxygenUptake).toBeCloseTo(3521.89655172, 6);
    expect(below.warnings).toEqual([]);
    const above = valuesAt(measured, 310, { lt2: 280 });
    expect(above.oxygenUptake).toBeCloseTo(4053.79310345, 6);
    expect(above.warnings.join()).toMatch(/keeps rising/);
    expect(valuesAt(measured, 351, { lt2: 280 }).oxygenUptake).toBeNull();
    expect(valuesAt(given, 260).oxygenUptake).toBeNull();
  });

  test('watts per kilogram; nothing from nothing', () => {
    expect(valuesAt(given, 280).wattsPerKg).toBe(4);
    expect(valuesAt(stepTest([8, 9, 10], [1, 2, 3], { axis: 'speed', bodyMass: 70 }), 9)).toEqual({
      heartRate: null,
      heartRateOnLine: null,
      heartRateShare: null,
      rpe: null,
      oxygenUptake: null,
      wattsPerKg: null,
      warnings: [],
    });
  });
});

describe('a last stage that was not finished', () => {
  const unfinished = (minutes: number) =>
    stepTest(x, [0.93, 0.87, 0.86, 0.92, 1.2, 1.69, 2.6, 4.69], {
      minutes: [5, 5, 5, 5, 5, 5, 5, minutes],
      stageMinutes: 5,
    });

  test('gives the three answers of every method that hangs on the end', () => {
    const results = endPointResults(unfinished(3));
    expect(results.map((r) => r.method)).toContain('modified-dmax');
    const dmax = results.find((r) => r.method === 'dmax')!.results;
    const at = (e: (typeof dmax)['credited']) => (e.refused ? Number.NaN : e.intensity);
    // With the stage at its nominal 350 W the test is 10_pre: 273.0166 W by R's lm.
    expect(at(dmax.nominal)).toBeCloseTo(273.0166, 3);
    expect(at(dmax.dropped)).toBeLessThan(at(dmax.credited));
    expect(at(dmax.credited)).toBeLessThan(at(dmax.nominal));
  });

  test('of less than half: credited is dropped', () => {
    for (const { results } of endPointResults(unfinished(2)))
      expect(results.credited).toEqual(results.dropped);
  });

  test('is not there in a test that ended on a full stage', () => {
    expect(endPointResults(TEN_PRE)).toEqual([]);
  });
});

describe('agreement', () => {
  const sampled = (test: StepTest, options: Partial<Parameters<typeof sampleThresholds>[1]> = {}) =>
    sampleThresholds(readingsOf(test), { error: HANDHELD, seed: 1, draws: 1000, ...options });

  test('methods that cannot differ agree, methods a level apart do not', () => {
    // The curve rises all the way: 3.0 lies below 3.5 and 4.0 in every draw, on paper and here.
    const [lt2] = agreementOf(sampled(TEN_PRE, { methods: ['fixed-3.0', 'fixed-4.0', 'fixed-3.5'] }));
    expect(lt2!.methods).toEqual(['fixed-3.0', 'fixed-3.5', 'fixed-4.0']);
    expect(lt2!.pairs.every((p) => p.beyondError && p.otherWay === 0)).toBe(true);
    expect(lt2!.clusters).toEqual([['fixed-3.0'], ['fixed-3.5'], ['fixed-4.0']]);
    expect(lt2!.highest - lt2!.lowest).toBeCloseTo(
      lt2!.pairs.find((p) => p.higher === 'fixed-4.0' && p.lower === 'fixed-3.0')!.difference,
      12,
    );
  });

  test('the spread of a difference is that of the joint draws, by numpy’s definition of std', () => {
    const result = sampled(TEN_PRE, { methods: ['fixed-3.0', 'dmax'] });
    const [lt2] = agreementOf(result);
    const [a, b] = [result.joint.methods.get('dmax')!.x, result.joint.methods.get('fixed-3.0')!.x];
    const differences = [...a].map((value, d) => b[d]! - value).filter((d) => !Number.isNaN(d));
    const mean = differences.reduce((s, d) => s + d, 0) / differences.length;
    const sd = Math.sqrt(differences.reduce((s, d) => s + (d - mean) ** 2, 0) / (differences.length - 1));
    expect(lt2!.pairs[0]!.sd).toBeCloseTo(sd, 9);
    expect(lt2!.pairs[0]!.otherWay).toBe(differences.filter((d) => d <= 0).length / differences.length);
  });

  test('groups and pairs say the same: members are linked, other groups are out of reach', () => {
    for (const [, { intensity, lactate }] of REAL.slice(0, 6)) {
      for (const { methods, pairs, clusters } of agreementOf(sampled(stepTest(intensity, lactate)))) {
        expect(clusters.flat().toSorted()).toEqual(methods.toSorted());
        const groupOf = (id: string) => clusters.findIndex((c) => c.includes(id));
        for (const { lower, higher, beyondError } of pairs) {
          if (!beyondError) expect(groupOf(lower)).toBe(groupOf(higher));
        }
        for (const cluster of clusters.filter((c) => c.length > 1)) {
          for (const id of cluster) {
            expect(pairs.some((p) => !p.beyondError && [p.lower, p.higher].includes(id))).toBe(true);
          }
        }
      }
    }
  });

  test('without draws nothing is said about pairs; the direction of shorter stages is known all the same', () => {
    const [lt2] = agreementOf(
      sampled(TEN_PRE, { methods: ['fixed-4.0', 'dmax'], draws: 0, error: NO_ERROR }),
    );
    expect(lt2!.pairs[0]).toMatchObject({ sd: null, otherWay: null, beyondError: false });
    expect(lt2!.clusters).toEqual([['dmax'], ['fixed-4.0']]);
    expect(lt2!.shorterStages).toMatchObject({ higher: ['fixed-4.0'], little: ['dmax'] });
  });

  test('what people saw is no part of it', () => {
    const result = sampled(TEN_PRE, {
      methods: ['fixed-4.0', 'visual-2'],
      options: { visual: { LT1: [], LT2: [300, 310] } },
    });
    expect(agreementOf(result)[0]!.methods).toEqual(['fixed-4.0']);
  });
});
