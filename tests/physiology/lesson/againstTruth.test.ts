import { describe, expect, test } from 'vitest';
import { moments } from '../../../src/numerics/moments.ts';
import { Random } from '../../../src/numerics/random.ts';
import { NO_ERROR } from '../../../src/physiology/errorModel.ts';
import {
  errorAgainst,
  LESSON_METHODS,
  type MethodOnTruth,
  onKnownReadings,
} from '../../../src/physiology/lesson/againstTruth.ts';
import { knownAthlete } from '../../../src/physiology/lesson/lessonAthletes.ts';
import { PUBLISHED_BIAS, publishedBias } from '../../../src/physiology/lesson/publishedBias.ts';
import { METHODS, methodById } from '../../../src/physiology/methods/index.ts';
import { usableReadings } from '../../../src/physiology/readings.ts';
import type { Readings } from '../../../src/physiology/stepTest.ts';
import { simulatedStepTest } from '../../../src/physiology/training/simulatedAthleteTests.ts';
import { expectDigits } from '../../digits.ts';

const cyclist = knownAthlete('cyclist');
const readings = usableReadings(
  simulatedStepTest(cyclist.type, { start: 100, increment: 40, stageMinutes: 4 }),
  { toExhaustion: true },
);
const run = (truth: Readings, error = NO_ERROR, repeats = 3, methods = LESSON_METHODS) =>
  onKnownReadings(truth, { error, repeats, random: new Random(1), methods });
const one = (all: MethodOnTruth[], id: string) => all.find(({ method }) => method.id === id)!;

describe('bias on readings without error', () => {
  // Outside reference: the earlier program's table for this athlete and protocol, in per cent of 312.2 W; methods that
  // both programs define alike.
  test.each([
    ['dmax', -16.7],
    ['dmax-exponential', -11.4],
    ['turn-point-2', -5.9],
    ['minimum-equivalent-plus-1.5', -9.2],
    ['minimum-equivalent-plus-1.0', -12.5],
    ['modified-dmax', -8.7],
    ['modified-dmax-exponential', -4.7],
  ])('%s is off by %f %', (id, percent) => {
    const { bias } = errorAgainst(cyclist.steady, one(run(readings), id));
    expect(Math.abs(100 * bias! - percent)).toBeLessThanOrEqual(0.05 + 1e-9);
  });

  test('a perfect meter has no scatter and sees the bias each time', () => {
    for (const method of run(readings)) {
      const { bias, scatter, range, without } = errorAgainst(cyclist.steady, method);
      if (bias === null) {
        expect(without).toBe(1);
        expect(scatter).toBeNull();
        continue;
      }
      expect(without).toBe(0);
      expect(scatter).toBeCloseTo(0, 12);
      expectDigits([1 + range![0], 1 + range![1]], [1 + bias, 1 + bias], { atLeast: 12 });
    }
  });
});

describe('scatter', () => {
  // Analytic truth: an offset alone moves the crossing of straight lines by offset / slope as long as it stays between
  // two stages. On readings that lie on one straight line that is everywhere: scatter = SD of the offset / slope.
  test('an offset of the meter spreads a fixed level by its own spread over the slope', () => {
    const x = Float64Array.from({ length: 9 }, (_, i) => 100 + 30 * i);
    const slope = 0.02;
    const line: Readings = {
      ...readings,
      x,
      y: x.map((at) => slope * at - 1),
      count: new Uint8Array(9).fill(1),
    };
    const repeats = 4000;
    const methods = [methodById('fixed-3.0')];
    const [fixed] = run(line, { ...NO_ERROR, offset: 0.1 }, repeats, methods);
    const { sd, mean } = moments(fixed!.answers);
    const expected = 0.1 / slope;
    expect(Math.abs(sd - expected)).toBeLessThan((4 * expected) / Math.sqrt(2 * repeats));
    expect(Math.abs(mean - 200)).toBeLessThan((4 * expected) / Math.sqrt(repeats));
    const { bias, scatter } = errorAgainst(200, fixed!);
    expect(bias).toBeCloseTo(0, 12);
    expect(scatter).toBeCloseTo(sd / 200, 12);
  });

  // Analytic truth: a gain stretches curve and chord alike, an offset lifts both, so Dmax does not move at all.
  test('calibration errors, however large, do not scatter Dmax, and do scatter a fixed value', () => {
    const all = run(readings, { ...NO_ERROR, gain: 0.1, offset: 0.1 }, 50);
    for (const id of ['dmax', 'dmax-exponential']) {
      const { scatter } = errorAgainst(cyclist.steady, one(all, id));
      expect(scatter, id).toBeLessThan(1e-6);
    }
    expect(errorAgainst(cyclist.steady, one(all, 'fixed-4.0')).scatter).toBeGreaterThan(1e-3);
  });

  test('is not told when most repeats give no answer', () => {
    const estimate = one(run(readings), 'fixed-4.0').estimate;
    const few = {
      method: methodById('fixed-4.0'),
      estimate,
      answers: Float64Array.of(300, 310),
      repeats: 10,
    };
    expect(errorAgainst(300, few)).toMatchObject({ scatter: null, range: null, without: 0.8 });
    expect(errorAgainst(300, { ...few, repeats: 3 }).scatter).toBeCloseTo(moments([300, 310]).sd / 300, 12);
  });
});

test('the athletes of the lesson have steady states that people have, and differ as they are said to', () => {
  const all = (['cyclist', 'enduring', 'sprinter', 'runner'] as const).map(knownAthlete);
  for (const { share, first, steady, lactate10, lactate30 } of all) {
    expect(share).toBeGreaterThan(0.6);
    expect(share).toBeLessThan(0.93);
    expect(first).toBeLessThan(steady);
    expect(lactate30 - lactate10).toBeCloseTo(1, 6);
  }
  const [usual, enduring, sprinter] = all;
  expect(enduring!.steady).toBeGreaterThan(usual!.steady);
  expect(sprinter!.steady).toBeLessThan(usual!.steady);
});

test('published figures belong to methods that there are, each with a source; for others there are none', () => {
  for (const { method, source, found } of PUBLISHED_BIAS) {
    expect(METHODS.map(({ id }) => id)).toContain(method);
    expect(source).toMatch(/\d{4}, .+\(.*(abstract|from memory)/);
    expect(found).not.toBe('');
  }
  expect(publishedBias('log-log')).toEqual([]);
});
