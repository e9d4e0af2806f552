import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { InputError } from '../../src/base/inputError.ts';
import { fitCurve } from '../../src/physiology/curves/index.ts';
import { type EstimateOptions, estimateAll, estimateReadings } from '../../src/physiology/estimate.ts';
import { METHODS } from '../../src/physiology/methods/index.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import type { CurveId, Recovery, StageProtocol, StepTest, TestData } from '../../src/physiology/stepTest.ts';
import { stepTest } from './stepTests.ts';

const number = (min: number, max: number) => fc.double({ min, max, noNaN: true });

/** Running tests as they come: a flat part, a rise, errors of a meter, uneven steps; 5 to 12 stages. */
const plausible = fc
  .record({
    start: number(6, 11),
    steps: fc.array(number(0.5, 2), { minLength: 4, maxLength: 11 }),
    base: number(0.6, 2),
    rise: number(2, 9),
    growth: number(2, 8),
    errors: fc.array(number(-0.3, 0.3), { minLength: 12, maxLength: 12 }),
  })
  .map(({ start, steps, base, rise, growth, errors }) => {
    const x = [start];
    for (const step of steps) x.push(x.at(-1)! + step);
    const width = x.at(-1)! - start;
    const share = (v: number) => Math.expm1((growth * (v - start)) / width) / Math.expm1(growth);
    const y = x.map((v, i) => Math.max(0.3, base + rise * share(v) + errors[i]!));
    return { x, y };
  });
type Rows = { x: number[]; y: number[] };

const running = ({ x, y }: Rows, more: Partial<StepTest> = {}) =>
  stepTest(x, y, { sport: 'running', axis: 'speed', stageMinutes: 4, ...more });

const IDS = METHODS.map((method) => method.id);
type Answers = Map<string, number | string>;

/** Method → intensity, or the code of its refusal; of every method there is, also those of other protocols. */
const answers = (given: TestData, options: EstimateOptions = {}, methods = IDS): Answers =>
  new Map(
    estimateAll(given, { ...options, methods }).map((e) => [
      e.method,
      e.refused ? e.refused.code : e.intensity,
    ]),
  );

function expectSame(got: Answers, expected: Answers, within = 1e-6): void {
  for (const [method, value] of expected) {
    if (typeof value === 'string') expect(got.get(method), method).toBe(value);
    else expect(Math.abs((got.get(method) as number) - value) / value, method).toBeLessThan(within);
  }
}

const times = (found: Answers, factor: number): Answers =>
  new Map([...found].map(([method, value]) => [method, typeof value === 'number' ? value * factor : value]));

const assertLaw = <T>(seed: number, numRuns: number, arbitrary: fc.Arbitrary<T>, law: (value: T) => void) =>
  fc.assert(fc.property(arbitrary, law), { seed, numRuns });

/** Methods defined by a slope or an angle: published for one unit, they do not carry over to another. */
const IN_ONE_UNIT = ['fixed-slope', 'bisector'];

describe('units', () => {
  test('every method but those bound to one unit answers in the unit it was given', () => {
    const methods = IDS.filter((id) => !IN_ONE_UNIT.includes(id));
    assertLaw(11, 60, plausible, (rows) => {
      const perSecond = { x: rows.x.map((v) => v / 3.6), y: rows.y };
      expectSame(
        answers(running(perSecond), {}, methods),
        times(answers(running(rows), {}, methods), 1 / 3.6),
      );
    });
  });

  test('a fixed slope has to be given in the new unit too', () => {
    assertLaw(12, 60, fc.tuple(plausible, number(0.2, 3)), ([rows, slope]) => {
      const perSecond = { x: rows.x.map((v) => v / 3.6), y: rows.y };
      const methods = ['fixed-slope'];
      const expected = times(answers(running(rows), { slope }, methods), 1 / 3.6);
      expectSame(answers(running(perSecond), { slope: slope * 3.6 }, methods), expected);
    });
  });
});

describe('calibration', () => {
  const gains = number(0.7, 1.4);

  test('gain and offset leave the shape where it is: Dmax, turn points, second derivative', () => {
    const methods = ['dmax', 'dmax-exponential', 'turn-point-1', 'turn-point-2', 'second-derivative'];
    assertLaw(13, 60, fc.tuple(plausible, gains, number(0, 1)), ([rows, gain, offset]) => {
      const other = { x: rows.x, y: rows.y.map((v) => gain * v + offset) };
      expectSame(answers(running(other), {}, methods), answers(running(rows), {}, methods));
    });
  });

  test('a gain alone leaves ratios and logarithms where they are', () => {
    const methods = ['log-log', 'minimum-equivalent'];
    assertLaw(14, 60, fc.tuple(plausible, gains), ([rows, gain]) => {
      const other = { x: rows.x, y: rows.y.map((v) => gain * v) };
      for (const curve of ['cubic', 'spline', 'raw'] as const) {
        expectSame(answers(running(other), { curve }, methods), answers(running(rows), { curve }, methods));
      }
    });
  });

  test('gain and offset leave the peak of a reverse test where it is', () => {
    const falling = fc.tuple(fc.array(number(1, 8), { minLength: 4, maxLength: 9 }), gains, number(0, 1));
    assertLaw(15, 80, falling, ([y, gain, offset]) => {
      const given = (lactate: number[]) =>
        stepTest(
          y.map((_, i) => 320 - 15 * i),
          lactate,
          { protocol: 'reverse' },
        );
      const other = y.map((v) => gain * v + offset);
      expectSame(answers(given(other), {}, ['reverse']), answers(given(y), {}, ['reverse']));
    });
  });
});

describe('replicates', () => {
  test('a reading given twice equals a reading of weight 2', () => {
    assertLaw(16, 60, fc.tuple(plausible, fc.nat(11)), ([{ x, y }, k]) => {
      const i = k % x.length;
      const twice = running({ x: [...x, x[i]!], y: [...y, y[i]!] });
      const readings = usableReadings(running({ x, y }));
      readings.count[i] = 2;
      // Those that work on the minutes of the test see one stage more.
      const methods = IDS.filter((id) => id !== 'individual-anaerobic');
      const weighted = estimateReadings(readings, { methods });
      const expected: Answers = new Map(
        weighted.map((e) => [e.method, e.refused ? e.refused.code : e.intensity]),
      );
      expectSame(answers(twice, {}, methods), expected, 1e-12);
    });
  });

  test('a weight draws the curve towards its reading', () => {
    const models = ['quadratic', 'cubic', 'quartic', 'exponential'] as const;
    assertLaw(17, 60, fc.tuple(plausible, fc.nat(11)), ([{ x, y }, k]) => {
      const i = k % x.length;
      const count = x.map((_, j) => (j === i ? 3 : 1));
      for (const model of models) {
        const plain = fitCurve({ x, y }, { model });
        const drawn = fitCurve({ x, y, count }, { model });
        if (plain.status !== 'ok' || drawn.status !== 'ok') continue;
        const [before, after] = [Math.abs(plain.residuals[i]!), Math.abs(drawn.residuals[i]!)];
        expect(after, model).toBeLessThanOrEqual(before + 1e-12);
        if (before > 1e-6) expect(after, model).toBeLessThan(before);
      }
    });
  });
});

describe('never outside the tested range', () => {
  const noise = fc.array(number(0.4, 12), { minLength: 2, maxLength: 14 });
  const curves = fc.constantFrom<CurveId | null>(
    null,
    'raw',
    'cubic',
    'quartic',
    'exponential',
    'spline',
    'quadratic',
  );
  const protocols = fc.constantFrom<StageProtocol>('step', 'lactate-minimum', 'reverse');
  const recovery = fc.array(number(0.4, 16), { minLength: 1, maxLength: 7 });

  test('whatever the readings, the protocol and the curve', () => {
    let answered = 0;
    const law = fc.record({ y: noise, curve: curves, protocol: protocols, recovery, before: number(1, 15) });
    assertLaw(18, 400, law, ({ y, curve, protocol, recovery: lactates, before }) => {
      const steps = y.map((_, i) => 120 + 20 * i);
      const x = protocol === 'reverse' ? steps.toReversed() : steps;
      const samples = lactates.map((lactate, row) => ({ row, minute: 1 + 2 * row, lactate }));
      const given = running({ x, y }, { protocol, lactateBefore: before, recovery: { samples, mode: null } });
      const visual = { LT1: [130, 140], LT2: [90, 900] };
      for (const e of estimateAll(given, { curve, visual, slope: 0.02, methods: IDS })) {
        if (e.refused) continue;
        answered += 1;
        expect(e.intensity, e.method).toBeGreaterThanOrEqual(120);
        expect(e.intensity, e.method).toBeLessThanOrEqual(steps.at(-1)!);
        expect(Number.isFinite(e.lactate), e.method).toBe(true);
      }
    });
    expect(answered).toBeGreaterThan(1000);
  });
});

describe('junk', () => {
  const junk: fc.Arbitrary<number> = fc.oneof(
    { weight: 1, arbitrary: fc.double() },
    { weight: 1, arbitrary: fc.constantFrom(0, -1, Number.NaN, Infinity, 1e308, 5e-324) },
    { weight: 30, arbitrary: number(0.01, 400) },
  );
  const maybe: fc.Arbitrary<number | null> = fc.option(junk);
  const sample = fc.record({ row: fc.nat(9), minute: junk, lactate: junk });
  const stage = fc.record({
    row: fc.nat(40),
    intensity: junk,
    lactate: maybe,
    heartRate: maybe,
    rpe: maybe,
    minutes: maybe,
  });
  const recovery: fc.Arbitrary<Recovery | null> = fc.option(
    fc.record({ samples: fc.array(sample, { maxLength: 6 }), mode: fc.constant(null) }),
  );
  const completed: fc.Arbitrary<boolean | null> = fc.option(fc.boolean());
  const stages: fc.Arbitrary<TestData> = fc.record({
    sport: fc.constant('running' as const),
    axis: fc.constant('speed' as const),
    protocol: fc.constantFrom<StageProtocol>('step', 'lactate-minimum', 'reverse'),
    stages: fc.array(stage, { maxLength: 30 }),
    restLactate: maybe,
    stageMinutes: maybe,
    bodyMass: maybe,
    lactateBefore: maybe,
    recovery,
    notes: fc.constant([]),
  });
  const bouts: fc.Arbitrary<TestData> = fc.record({
    protocol: fc.constant('bouts' as const),
    sport: fc.constant('running' as const),
    axis: fc.constant('speed' as const),
    bouts: fc.array(
      fc.record({
        intensity: junk,
        samples: fc.array(sample, { maxLength: 6 }),
        completed,
      }),
      { maxLength: 5 },
    ),
    bodyMass: maybe,
    notes: fc.constant([]),
  });
  const options = fc.record({
    slope: maybe,
    visual: fc.record({ LT1: fc.array(junk, { maxLength: 3 }), LT2: fc.array(junk, { maxLength: 3 }) }),
    anchor: fc.constantFrom<'previous-stage' | 'baseline'>('previous-stage', 'baseline'),
    includeRest: fc.boolean(),
  });

  test('gives answers, refusals or an InputError, and nothing else; and ends', () => {
    let passed = 0;
    assertLaw(19, 500, fc.tuple(fc.oneof(stages, bouts), options), ([given, chosen]) => {
      try {
        for (const e of estimateAll(given, { ...chosen, methods: IDS })) {
          if (e.refused) expect(e.refused.reason.length).toBeGreaterThan(10);
          else expect(Number.isFinite(e.intensity), e.method).toBe(true);
        }
        passed += 1;
      } catch (error) {
        if (!(error instanceof InputError)) throw error;
      }
    });
    // Enough of the junk gets past the door to reach the methods.
    expect(passed).toBeGreaterThan(100);
  });
});

test('the checks can fail', () => {
  expect(() => expectSame(new Map([['a', 1.00001]]), new Map([['a', 1]]))).toThrow();
  expect(() => expectSame(new Map([['a', 'E_EDGE']]), new Map([['a', 1]]))).toThrow();
  expect(() => expectSame(new Map([['a', 1]]), new Map([['a', 'E_EDGE']]))).toThrow();
  // Methods bound to a unit do break the law of units; a fixed level breaks that of calibration.
  const rows = { x: [8, 9, 10, 11, 12, 13, 14, 15], y: [1.3, 1.2, 1.3, 1.5, 1.9, 2.7, 4.2, 7.1] };
  const slower = { x: rows.x.map((v) => v / 3.6), y: rows.y };
  const higher = { x: rows.x, y: rows.y.map((v) => v + 0.5) };
  const of = (given: Rows, id: string) => answers(running(given), {}, [id]);
  expect(() => expectSame(of(slower, 'fixed-slope'), times(of(rows, 'fixed-slope'), 1 / 3.6))).toThrow();
  expect(() => expectSame(of(higher, 'fixed-3.0'), of(rows, 'fixed-3.0'))).toThrow();
  expect(() => expectSame(of(higher, 'minimum-equivalent'), of(rows, 'minimum-equivalent'))).toThrow();
});
