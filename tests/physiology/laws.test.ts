import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { MODELS } from '../../src/physiology/curves/index.ts';
import { HANDHELD } from '../../src/physiology/errorModel.ts';
import { type EstimateOptions, estimateAll } from '../../src/physiology/estimate.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import { sampleThresholds } from '../../src/physiology/samplingError.ts';
import type { CurveId, StepTest } from '../../src/physiology/stepTest.ts';
import { checkTest } from '../../src/physiology/testChecks.ts';
import { stepTest } from './stepTests.ts';

/** Tests like real ones: a flat part, a rise, errors of a meter, uneven steps. */
const plausible = fc
  .record({
    start: fc.double({ min: 60, max: 150, noNaN: true }),
    steps: fc.array(fc.double({ min: 15, max: 60, noNaN: true }), { minLength: 4, maxLength: 9 }),
    base: fc.double({ min: 0.6, max: 2, noNaN: true }),
    rise: fc.double({ min: 2, max: 9, noNaN: true }),
    growth: fc.double({ min: 2, max: 8, noNaN: true }),
    errors: fc.array(fc.double({ min: -0.3, max: 0.3, noNaN: true }), { minLength: 10, maxLength: 10 }),
  })
  .map(({ start, steps, base, rise, growth, errors }) => {
    const x = [start];
    for (const step of steps) x.push(x.at(-1)! + step);
    const width = x.at(-1)! - start;
    const share = (w: number) => Math.expm1((growth * (w - start)) / width) / Math.expm1(growth);
    const y = x.map((w, i) => Math.max(0.3, base + rise * share(w) + errors[i]!));
    return { x, y };
  });

const curves = fc.constantFrom(null, ...(Object.keys(MODELS) as CurveId[]));

/** Method → intensity, or the code of its refusal. */
const answers = (given: StepTest, options: EstimateOptions = {}) =>
  new Map(estimateAll(given, options).map((e) => [e.method, e.refused ? e.refused.code : e.intensity]));

function expectSame(
  got: Map<string, number | string>,
  expected: Map<string, number | string>,
  within = 1e-6,
) {
  for (const [method, value] of expected) {
    if (typeof value === 'string') expect(got.get(method), method).toBe(value);
    else expect(Math.abs((got.get(method) as number) - value) / value, method).toBeLessThan(within);
  }
}

describe('laws of every method', () => {
  test('another unit of intensity rescales every answer', () => {
    fc.assert(
      fc.property(plausible, curves, fc.constantFrom(0.1, 1 / 3.6, 4), ({ x, y }, curve, factor) => {
        const expected = answers(stepTest(x, y), { curve });
        const scaled = new Map([...expected].map(([m, v]) => [m, typeof v === 'number' ? v * factor : v]));
        expectSame(
          answers(
            stepTest(
              x.map((w) => w * factor),
              y,
            ),
            { curve },
          ),
          scaled,
        );
      }),
      { seed: 1, numRuns: 60 },
    );
  });

  test('a meter with another gain and offset leaves both Dmax where they were', () => {
    fc.assert(
      fc.property(
        plausible,
        fc.double({ min: 0.7, max: 1.4, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.constantFrom<'fitted' | 'measured'>('fitted', 'measured'),
        ({ x, y }, gain, offset, ends) => {
          const options = { methods: ['dmax', 'dmax-exponential'], ends };
          const other = y.map((lactate) => gain * lactate + offset);
          expectSame(answers(stepTest(x, other), options), answers(stepTest(x, y), options));
        },
      ),
      { seed: 2, numRuns: 60 },
    );
  });

  test('the order of the rows does not matter', () => {
    fc.assert(
      fc.property(plausible, fc.infiniteStream(fc.nat()), ({ x, y }, keys) => {
        const given = stepTest(x, y);
        const order = new Map(given.stages.map((stage) => [stage, keys.next().value as number]));
        const shuffled = { ...given, stages: given.stages.toSorted((a, b) => order.get(a)! - order.get(b)!) };
        expect(answers(shuffled)).toEqual(answers(given));
      }),
      { seed: 3, numRuns: 30 },
    );
  });

  test('two equal samples of every stage change nothing', () => {
    fc.assert(
      fc.property(plausible, ({ x, y }) => {
        expectSame(answers(stepTest([...x, ...x], [...y, ...y])), answers(stepTest(x, y)));
      }),
      { seed: 4, numRuns: 30 },
    );
  });

  test('no answer, headline or draw, lies outside the tested range', () => {
    fc.assert(
      fc.property(plausible, curves, ({ x, y }, curve) => {
        const readings = usableReadings(stepTest(x, y));
        const result = sampleThresholds(readings, {
          options: { curve },
          error: HANDHELD,
          draws: 40,
          seed: 5,
        });
        const inside = (value: number) => value >= x[0]! && value <= x.at(-1)!;
        for (const { estimate } of result.methods) {
          if (!estimate.refused)
            expect(inside(estimate.intensity), `${estimate.method} ${estimate.intensity}`).toBe(true);
        }
        for (const [method, draws] of result.joint.methods) {
          const outside = [...draws.x].filter((value, d) => draws.code[d] === 0 && !inside(value));
          expect(outside, method).toEqual([]);
          expect([...draws.x].filter((value, d) => (draws.code[d] === 0) === Number.isNaN(value))).toEqual(
            [],
          );
        }
      }),
      { seed: 6, numRuns: 60 },
    );
  });

  test('the check can fail', () => {
    expect(() => expectSame(new Map([['a', 1.00001]]), new Map([['a', 1]]))).toThrow();
    expect(() => expectSame(new Map([['a', 'E_EDGE']]), new Map([['a', 1]]))).toThrow();
    expect(() => expectSame(new Map([['a', 1]]), new Map([['a', 'E_EDGE']]))).toThrow();
  });
});

describe('junk', () => {
  // Mostly numbers that pass the door, so that many tests reach the curves.
  const junk = fc.oneof(
    { weight: 1, arbitrary: fc.double() },
    { weight: 1, arbitrary: fc.constantFrom(0, -1, Number.NaN, Infinity) },
    { weight: 4, arbitrary: fc.constantFrom(1e308, 5e-324, 1e-9, 3, 100, 100.0000001) },
    { weight: 40, arbitrary: fc.double({ min: 0.01, max: 400, noNaN: true }) },
  );
  const stage = fc.record({
    row: fc.nat(20),
    intensity: junk,
    lactate: fc.option(junk),
    heartRate: fc.option(junk),
    rpe: fc.option(junk),
    minutes: fc.option(junk),
  });
  const junkTest: fc.Arbitrary<StepTest> = fc.record({
    sport: fc.constant('running' as const),
    axis: fc.constant('speed' as const),
    stages: fc.array(stage, { maxLength: 9 }),
    restLactate: fc.option(junk),
    stageMinutes: fc.option(junk),
    bodyMass: fc.option(junk),
    notes: fc.constant([]),
  });

  test('gives answers, refusals or an InputError, and nothing else', () => {
    fc.assert(
      fc.property(junkTest, curves, (given, curve) => {
        try {
          checkTest(given);
          for (const e of estimateAll(given, { curve, includeRest: true })) {
            if (e.refused) expect(e.refused.reason.length).toBeGreaterThan(10);
            else expect(Number.isFinite(e.intensity), `${e.method} ${JSON.stringify(given)}`).toBe(true);
          }
          sampleThresholds(usableReadings(given), { options: { curve }, error: HANDHELD, draws: 5, seed: 7 });
        } catch (error) {
          if (!(error instanceof InputError)) throw error;
        }
      }),
      { seed: 8, numRuns: 200 },
    );
  });
});
