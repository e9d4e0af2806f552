import { describe, expect, test } from 'vitest';
import { HANDHELD, NO_ERROR } from '../../../src/physiology/errorModel.ts';
import { estimateReadings } from '../../../src/physiology/estimate.ts';
import { type ClassStep, drawnAthletes, testClass } from '../../../src/physiology/lesson/classOfAthletes.ts';
import { firstThresholdOf } from '../../../src/physiology/lesson/firstThreshold.ts';
import { knownAthlete, scaledTo } from '../../../src/physiology/lesson/lessonAthletes.ts';
import { methodById } from '../../../src/physiology/methods/index.ts';
import { usableReadings } from '../../../src/physiology/readings.ts';
import {
  intensityAtMaximalUptake,
  oxygenDemand,
  steadyStateOf,
  TRAINED_CYCLIST,
} from '../../../src/physiology/training/simulatedAthlete.ts';
import { simulatedStepTest } from '../../../src/physiology/training/simulatedAthleteTests.ts';
import { expectDigits } from '../../digits.ts';
import scipy from '../../references/lesson/classBias.json' with { type: 'json' };

const METHODS = Object.keys(scipy.summary) as (keyof typeof scipy.summary)[];
const pupils = scipy.athletes.map((pupil) => ({
  ...pupil,
  type: { ...TRAINED_CYCLIST, ...pupil.make },
}));

function lastOf(steps: Iterable<ClassStep>): ClassStep {
  let last: ClassStep | null = null;
  for (const step of steps) last = step;
  return last!;
}

// Outside reference: twelve athletes integrated, tested and judged by scipy and numpy alone (tests/references/lesson).
describe('a class of known make, against scipy', () => {
  test.each(pupils)('one athlete: truths, readings, answers', ({ type, steady, first, x, y, answers }) => {
    const known = steadyStateOf(type).intensity;
    expectDigits(known, steady, { atLeast: 6 });
    // The floor is flat, so where it lies is known to half the digits; the threshold hangs on its height.
    expectDigits(firstThresholdOf(type, known), first, { atLeast: 5 });
    const readings = usableReadings(simulatedStepTest(type, scipy.protocol), { toExhaustion: true });
    expectDigits(readings.x, x, { atLeast: 6 });
    expectDigits(readings.y, y, { atLeast: 6 });
    for (const [method, answer] of Object.entries(answers)) {
      const [estimate] = estimateReadings(readings, { methods: [method] });
      expectDigits(estimate!.refused ? Number.NaN : estimate!.intensity, answer, {
        atLeast: 5,
        what: method,
      });
    }
  });

  test('bias and its spread over the class', () => {
    const athletes = pupils.map(({ type, steady }) => ({ type, steady, share: 0 }));
    const step = lastOf(
      testClass(athletes, {
        protocolOf: () => scipy.protocol,
        error: NO_ERROR,
        seed: 1,
        methods: METHODS.map(methodById),
      }),
    );
    for (const { method, ...got } of step.errors()) {
      const expected = scipy.summary[method.id as keyof typeof scipy.summary];
      expect(got.answered).toBe(expected.answered);
      // Shares: a difference of 1e-5 is 0.003 W.
      expect(Math.abs(got.bias - expected.bias), method.id).toBeLessThan(1e-5);
      expect(Math.abs(got.spread - expected.spread), method.id).toBeLessThan(1e-5);
      // A meter without errors sees what is there.
      expect(got.biasWithMeter).toBe(got.bias);
      expect(got.spreadWithMeter).toBe(got.spread);
    }
  });
});

describe('a class of random make', () => {
  const from = knownAthlete('cyclist').type;
  const protocol = { start: 100, increment: 30, stageMinutes: 4 };
  const draw = (error = HANDHELD, seed = 3, count = 30) =>
    lastOf(
      testClass(drawnAthletes(count, seed, 'cycling'), {
        protocolOf: (type) => scaledTo(type, protocol, from),
        error,
        seed,
        methods: ['fixed-4.0', 'dmax', 'baseline-plus-0.5'].map(methodById),
      }),
    );

  test('tells its progress athlete by athlete, and what it has so far', () => {
    const steps = testClass(drawnAthletes(3, 1, 'running'), {
      protocolOf: () => ({ start: 6, increment: 1, stageMinutes: 3 }),
      error: NO_ERROR,
      seed: 1,
    });
    expect([...steps].map(({ done }) => done)).toEqual([1, 2, 3]);
  });

  test('the same seed gives the same class, and another meter meets the same athletes', () => {
    const [one, two] = [draw(), draw()].map((step) => step.errors());
    expect(one).toEqual(two);
    const exact = draw(NO_ERROR).errors();
    for (const [m, error] of one!.entries()) {
      expect(error.bias).toBe(exact[m]!.bias);
      expect(error.spread).toBe(exact[m]!.spread);
      expect(error.biasWithMeter).not.toBe(exact[m]!.biasWithMeter);
    }
  });

  // Analytic truth: variances add, so that over a class the errors of a meter can only widen the spread; over 30
  // athletes the estimate of the extra variance of the method that reads the flat part is far above its own error.
  test('a meter widens the spread of a method that reads the flat part of the curve', () => {
    const flat = draw().errors()[2]!;
    expect(flat.spreadWithMeter).toBeGreaterThan(flat.spread);
  });
});

test('a protocol is fitted in proportion to what an athlete has at maximal oxygen uptake', () => {
  const from = TRAINED_CYCLIST;
  const half = { ...from, mass: from.mass / 2 };
  const scaled = scaledTo(half, { start: 100, increment: 30, stageMinutes: 4 }, from);
  expectDigits([scaled.start, scaled.increment, scaled.stageMinutes], [50, 15, 4], { atLeast: 12 });
  expectDigits(oxygenDemand(from, intensityAtMaximalUptake(from)), from.maximalUptake, { atLeast: 12 });
});
