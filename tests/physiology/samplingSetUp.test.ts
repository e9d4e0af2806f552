import { describe, expect, test } from 'vitest';
import { BENCH, HANDHELD } from '../../src/physiology/errorModel.ts';
import { estimateReadings } from '../../src/physiology/estimate.ts';
import { heartRatesOf } from '../../src/physiology/heartRate.ts';
import { methodsFor } from '../../src/physiology/methods/index.ts';
import { PreparedMethods, withDefaults } from '../../src/physiology/preparedMethods.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { Sampler, sampleThresholds } from '../../src/physiology/samplingError.ts';
import { samplingSetUp } from '../../src/physiology/samplingSetUp.ts';
import { TEN_PRE } from './stepTests.ts';

const readings = () => usableReadings(TEN_PRE);

describe('the set-up is made once for the same contents', () => {
  test('another error model, seed or copy of the readings needs no new one', () => {
    const first = sampleThresholds(readings(), { error: HANDHELD, seed: 1, draws: 10 });
    const second = sampleThresholds(readings(), { error: BENCH, seed: 2, draws: 20 });
    expect(second.methods.map((m) => m.shifts)).toEqual(first.methods.map((m) => m.shifts));
    for (const [i, m] of second.methods.entries()) expect(m.shifts).toBe(first.methods[i]!.shifts);
  });

  test('a reading edited in place, another option and other methods are seen', () => {
    const edited = readings();
    const before = samplingSetUp(edited, {}, undefined);
    edited.y[6] = 2.7;
    const after = samplingSetUp(edited, {}, undefined);
    expect(after.estimates).toEqual(estimateReadings(edited));
    expect(after.estimates).not.toEqual(before.estimates);
    expect(samplingSetUp(edited, { curve: 'cubic' }, undefined)).not.toBe(after);
    expect(samplingSetUp(edited, { slope: Number.NaN }, undefined)).not.toBe(after);
    expect(samplingSetUp(edited, {}, ['dmax']).estimates).toHaveLength(1);
    expect(samplingSetUp(edited, {}, undefined)).toBe(after);
  });

  test('two samplers that take turns on it do not disturb each other', () => {
    const rested = { ...readings(), restLactate: 1 };
    const given = { error: HANDHELD, options: { baseline: 'rest' } as const };
    const alone = [1, 2].map((seed) => sampleThresholds(rested, { ...given, seed, draws: 60 }));
    const both = [1, 2].map((seed) => new Sampler(rested, { ...given, seed }));
    for (const part of [10, 50]) for (const sampler of both) sampler.run(part);
    expect(both.map((sampler) => sampler.summary())).toEqual(alone);
  });

  test('heart rates belong to the sampler, not to the set-up', () => {
    const withRates = new Sampler(readings(), {
      error: HANDHELD,
      seed: 1,
      heartRates: heartRatesOf(TEN_PRE),
    });
    const without = new Sampler(readings(), { error: HANDHELD, seed: 1 });
    expect(withRates.estimates.some((e) => !e.refused && e.heartRate !== null)).toBe(true);
    expect(without.estimates.every((e) => e.refused || e.heartRate === null)).toBe(true);
  });

  test('methods made ready for another test of the same plan answer as new ones, whatever was drawn with them before', () => {
    const given = { error: HANDHELD, seed: 3, draws: 40, heartRates: heartRatesOf(TEN_PRE) };
    const options = withDefaults({ baseline: 'rest' });
    const first = { ...readings(), restLactate: 1.4 };
    const second = { ...readings(), restLactate: 0.9 };
    second.y[4]! += 0.3;
    const own = { ...first, y: first.y.slice() };
    const prepared = new PreparedMethods(own, methodsFor(own, options), options);
    sampleThresholds(first, { ...given, prepared });
    own.y.set(second.y);
    own.restLactate = second.restLactate;
    expect(sampleThresholds(second, { ...given, prepared })).toEqual(
      sampleThresholds(second, { ...given, options }),
    );
  });
});
