import { describe, expect, test } from 'vitest';
import { quantiles } from '../../../src/numerics/quantiles.ts';
import { Random } from '../../../src/numerics/random.ts';
import type { Stage, StepTest } from '../../../src/physiology/stepTest.ts';
import {
  constantLoad,
  RECREATIONAL_RUNNER,
  SimulatedAthlete,
  steadyStateOf,
  TRAINED_CYCLIST,
  theoreticalSteadyState,
} from '../../../src/physiology/training/simulatedAthlete.ts';
import { randomAthlete } from '../../../src/physiology/training/simulatedAthleteKinds.ts';
import { simulatedStepTest } from '../../../src/physiology/training/simulatedAthleteTests.ts';
import { expectDigits } from '../../digits.ts';
import earlier from '../../references/simulator/athletes.json' with { type: 'json' };
import scipy from '../../references/simulator/lactate.json' with { type: 'json' };
import { simulatedSession } from './simulatedSession.ts';

/** Highest intensity reached: the last full stage and the part done of the next. */
function peakIntensity({ stages, stageMinutes }: StepTest): number {
  const [before, last] = stages.slice(-2) as [Stage, Stage];
  return before.intensity + (last.intensity - before.intensity) * (last.minutes! / stageMinutes!);
}

const ATHLETES = [
  { kind: 'cyclist' as const, type: TRAINED_CYCLIST },
  { kind: 'runner' as const, type: RECREATIONAL_RUNNER },
];

describe.each(ATHLETES)('the simulated $kind', ({ kind, type }) => {
  // Outside reference: the same equations in another program and by another integrator (tests/references/simulator).
  test('maximal lactate steady state and lactate there, against scipy (LSODA)', () => {
    const steady = steadyStateOf(type);
    const { steadyState, bouts, rest, minutes } = scipy[kind];
    expectDigits(steady.intensity, steadyState, { atLeast: 6 });
    expectDigits(new SimulatedAthlete(type).lactate, rest, { atLeast: 6 });
    for (const { share, lactate } of bouts)
      expectDigits(constantLoad(type, share * steadyState, minutes), lactate, { atLeast: 5 });
  });

  test('step tests of four stage lengths, recovery and bouts, against the earlier program', () => {
    const { start, increment, tests, bouts, minutes, steadyState, theory } = earlier[kind];
    for (const { stage, ...expected } of tests) {
      const made = simulatedStepTest(type, { start, increment, stageMinutes: stage });
      expect(made.stages.map((s) => s.intensity)).toEqual(expected.intensity);
      expectDigits(
        made.stages.map((s) => s.lactate!),
        expected.lactate,
        { atLeast: 9 },
      );
      expectDigits(
        made.stages.map((s) => s.minutes!),
        expected.minutes,
        { atLeast: 9 },
      );
      expectDigits(
        made.recovery!.samples.map((s) => s.lactate),
        expected.recovery,
        { atLeast: 9 },
      );
      expectDigits([made.restLactate!, peakIntensity(made)], [expected.rest, expected.peak], { atLeast: 9 });
    }
    const steady = steadyStateOf(type);
    expectDigits(
      [steady.intensity, steady.lactate10, steady.lactate30, theoreticalSteadyState(type)],
      [steadyState.I, steadyState.L10, steadyState.L30, theory],
      { atLeast: 9 },
    );
    for (const { share, lactate } of bouts)
      expectDigits(constantLoad(type, share * steadyState.I, minutes), lactate, { atLeast: 9 });
  });

  test('is not far from people: lactate at the steady state, Beneke 2000 (4.9 ± 1.4 mmol/L, abstract)', () => {
    const { lactate10, lactate30 } = steadyStateOf(type);
    expect(Math.abs((lactate10 + lactate30) / 2 - 4.9)).toBeLessThan(2 * 1.4);
  });

  test('laws: more work makes more lactate, a copy goes its own way, longer stages end lower', () => {
    const at = steadyStateOf(type).intensity;
    const ends = [0.9, 1, 1.1].map((k) => constantLoad(type, k * at, [20])[0]!);
    expect(ends).toEqual(ends.toSorted((a, b) => a - b));
    const athlete = new SimulatedAthlete(type);
    athlete.work(at, 5);
    const before = athlete.lactate;
    athlete.copy().work(at, 10);
    expect(athlete.lactate).toBe(before);
    const peaks = [1, 4, 8].map((stageMinutes) =>
      peakIntensity(simulatedStepTest(type, { start: 0.4 * at, increment: 0.1 * at, stageMinutes })),
    );
    expect(peaks).toEqual(peaks.toSorted((a, b) => b - a));
  });

  test('a session far above the steady state ends early, one below it does not', () => {
    const at = steadyStateOf(type).intensity;
    const plan = { reps: 6, repMinutes: 8, restMinutes: 2, easy: 0.5 * at };
    expect(simulatedSession(type, { ...plan, intensity: 1.3 * at }).length).toBeLessThan(6);
    const easy = simulatedSession(type, { ...plan, intensity: 0.9 * at });
    expect(easy.map((rep) => rep.minutes)).toEqual(Array(6).fill(8));
  });
});

test('a protocol that cannot be run is refused with a sentence', () => {
  expect(() => simulatedStepTest(TRAINED_CYCLIST, { start: 100, increment: 0, stageMinutes: 4 })).toThrow(
    /needs a start, an increment and a stage length above 0/,
  );
});

describe('athletes of random make', () => {
  // Outside reference: 150 athletes of the earlier program (other random numbers): steady state at 80.2 % of maximal
  // uptake (5 % and 95 % quantiles 71.9 and 88.6), lactate after 30 min 5.29 mmol/L (4.60 and 7.23).
  const random = new Random(7);
  const many = Array.from({ length: 60 }, () => randomAthlete(random));

  test('their steady states spread as those of the earlier program', () => {
    const median = quantiles(
      many.map(({ share }) => 100 * share),
      [0.5],
    ).values[0]!;
    // Four standard errors of the difference of two medians; normal quantiles give the spread.
    const sd = (88.6 - 71.9) / (2 * 1.645);
    expect(Math.abs(median - 80.2)).toBeLessThan(4 * 1.2533 * sd * Math.sqrt(1 / 60 + 1 / 150));
    for (const { share } of many) expect(share > 0.6 && share < 0.93).toBe(true);
  });

  test('lactate at the steady state is near that of the earlier program', () => {
    const lactates = many.map(({ type, steady }) => constantLoad(type, steady, [30])[0]!);
    const sd = (7.23 - 4.6) / (2 * 1.645);
    const median = quantiles(lactates, [0.5]).values[0]!;
    expect(Math.abs(median - 5.29)).toBeLessThan(4 * 1.2533 * sd * Math.sqrt(1 / 60 + 1 / 150));
  });

  test('the same seed makes the same athlete, and runners run', () => {
    expect(randomAthlete(new Random(3))).toEqual(randomAthlete(new Random(3)));
    const { type, steady } = randomAthlete(new Random(3), 'running');
    expect(type).toMatchObject({ sport: 'running', axis: 'speed' });
    expect(steady).toBeGreaterThan(5);
    expect(steady).toBeLessThan(22);
  });
});
