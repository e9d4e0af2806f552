import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { THIN_SPACE } from '../../src/base/format.ts';
import { InputError } from '../../src/base/inputError.ts';
import { boutReadings, readingsOf } from '../../src/physiology/boutReadings.ts';
import { constructionOf } from '../../src/physiology/constructionOf.ts';
import { HANDHELD } from '../../src/physiology/errorModel.ts';
import { type EstimateOptions, estimateAll } from '../../src/physiology/estimate.ts';
import { METHODS, methodById } from '../../src/physiology/methods/index.ts';
import { PROTOCOL_NAMES, REFUSAL_MEANINGS } from '../../src/physiology/refusal.ts';
import { REFUSAL_CODES, type RefusalCode } from '../../src/physiology/refusalCodes.ts';
import { sampleThresholds } from '../../src/physiology/samplingError.ts';
import type { Bout, BoutTest, CurveId, Protocol, StepTest, TestData } from '../../src/physiology/stepTest.ts';
import { stepTest } from './stepTests.ts';

const watts = [100, 140, 180, 220, 260, 300, 340];
const usual = stepTest(watts, [0.9, 0.8, 0.9, 1.1, 1.6, 2.9, 7.9], { stageMinutes: 3 });
const flat = stepTest(watts, [1, 1, 1, 1.1, 1, 1.1, 1.2]);
const running = { sport: 'running', axis: 'speed' } as const;
const speeds = [8, 9, 10, 11, 12, 13, 14];

const recovering = (...lactate: number[]): StepTest => ({
  ...usual,
  recovery: {
    samples: lactate.map((value, row) => ({ row, minute: 2 * row + 1, lactate: value })),
    mode: null,
  },
});
const minimumTest = (y: number[], lactateBefore: number | null): StepTest => ({
  ...stepTest([180, 200, 220, 240, 260, 280], y),
  protocol: 'lactate-minimum',
  lactateBefore,
});
const reversed = (x: number[], y: number[]): StepTest => ({ ...stepTest(x, y), protocol: 'reverse' });
const bout = (intensity: number, at10: number, at30: number): Bout => ({
  intensity,
  completed: true,
  samples: [
    { row: 0, minute: 10, lactate: at10 },
    { row: 1, minute: 30, lactate: at30 },
  ],
});
const bouts = (...of: Bout[]): BoutTest => ({
  protocol: 'bouts',
  sport: 'cycling',
  axis: 'power',
  bouts: of,
  bodyMass: null,
  notes: [],
});

type Case = [id: string, code: RefusalCode, given: TestData, sentence: RegExp, options?: EstimateOptions];

/** A refusal of every kind, with what its sentence has to say. */
const CASES: Case[] = [
  ['individual-anaerobic', 'E_NO_RECOVERY', usual, /samples from the minutes after the end/],
  [
    'individual-anaerobic',
    'E_NO_RETURN',
    recovering(9, 9.5, 9.2, 8.5),
    /never fell back to the 7.90 mmol\/L/,
  ],
  [
    'individual-anaerobic',
    'E_NO_RETURN',
    recovering(7, 6.5, 6),
    /start below the 7.90 mmol\/L.*take one at 1 minute/,
  ],
  [
    'individual-anaerobic',
    'E_PROTOCOL',
    { ...recovering(9, 8, 7), stageMinutes: null },
    /length of the stages is not known/,
  ],
  [
    'individual-anaerobic',
    'E_EDGE',
    {
      ...recovering(8, 8, 7),
      stages: stepTest(watts, [1, 1.5, 2.2, 3.2, 4.6, 6.4, 7.9]).stages,
      recovery: {
        samples: [
          { row: 0, minute: 1, lactate: 8 },
          { row: 1, minute: 55, lactate: 7.95 },
          { row: 2, minute: 56, lactate: 7 },
        ],
        mode: 'passive',
      },
    },
    /touches the curve outside/,
  ],
  ['fixed-slope', 'E_SCALE', usual, /a slope per W is published for no cycling test/],
  [
    'fixed-slope',
    'E_NOT_REACHED',
    stepTest(speeds, [1, 1.1, 1.2, 1.3, 1.5, 1.7, 2], running),
    /nowhere as steep as 1.26 mmol\/L per km\/h.*above the tested 14.0 km\/h/,
  ],
  [
    'fixed-slope',
    'E_ALREADY_ABOVE',
    stepTest(speeds, [1, 2.5, 4.2, 6.1, 8.3, 10.8, 13.7], running),
    /steeper than 1.26.*first stage/,
  ],
  [
    'fixed-slope',
    'E_NOT_CONVEX',
    stepTest(speeds, [1, 3, 4.5, 5.6, 6.3, 6.7, 6.8], running),
    /bends the wrong way/,
    { curve: 'cubic', slope: 1 },
  ],
  ['bisector', 'E_SCALE', usual, /none is published for cycling/],
  ['second-derivative', 'E_EDGE', usual, /where the test ended set it/],
  [
    'second-derivative',
    'E_NOT_CONVEX',
    stepTest(watts, [1, 3, 4.5, 5.6, 6.3, 6.7, 6.8]),
    /bends the wrong way/,
  ],
  ['second-rise', 'E_NO_RISE', flat, /no two rises of 0.5/],
  ['visual-1', 'E_POINTS', usual, /at least 2 raters; there are 1/, { visual: { LT1: [200], LT2: [] } }],
  ['visual-2', 'E_EDGE', usual, /500 W lies outside/, { visual: { LT1: [], LT2: [300, 500] } }],
  ['modified-dmax', 'E_POINTS', usual, /no rest sample/, { anchor: 'baseline', baseline: 'rest' }],
  [
    'modified-dmax-exponential',
    'E_NO_RISE',
    stepTest(watts, [1, 1.05, 1.12, 1.22, 1.36, 1.58, 1.95]),
    /above the one before/,
  ],
  [
    'lactate-minimum',
    'E_NO_HYPERLACT',
    minimumTest([5, 4, 3.5, 3.6, 4.5, 6], 4.5),
    /4.50 mmol\/L\) is less than 2 times the minimum \(3\.\d\d mmol/,
  ],
  ['lactate-minimum', 'E_NO_HYPERLACT', minimumTest([5, 4, 3.5, 3.6, 4.5, 6], null), /the table holds none/],
  [
    'lactate-minimum',
    'E_NO_MIN',
    minimumTest([5, 5.6, 6, 6.1, 5.9, 5.4], 12),
    /does not fall and rise again/,
  ],
  ['lactate-minimum', 'E_EDGE', minimumTest([3, 3.1, 3.5, 4.2, 5.5, 7], 12), /2 stages on either side/],
  ['reverse', 'E_PROTOCOL', reversed([300, 280, 290, 260], [5, 6, 6, 5]), /must fall from stage to stage/],
  [
    'reverse',
    'E_EDGE',
    reversed([300, 290, 280, 270], [7, 6, 5, 4]),
    /highest at the first or the last stage/,
  ],
  ['steady-state-bouts', 'E_NOT_REACHED', bouts(bout(240, 2, 2.5), bout(260, 3, 3.9)), /is 260 W or more/],
  ['steady-state-bouts', 'E_ALREADY_ABOVE', bouts(bout(240, 4, 6), bout(260, 5, 8)), /No bout was steady/],
  [
    'steady-state-bouts',
    'E_PROTOCOL',
    bouts(bout(240, 3, 4.2), bout(260, 4, 4.6)),
    /260 W was steady although that at 240 W was not: repeat/,
  ],
  ['steady-state-bouts', 'E_POINTS', bouts(bout(240, 3, 3.2)), /at least 2 usable bouts/],
  [
    'steady-state-bouts',
    'E_POINTS',
    bouts(bout(240, 3, 3.2), { ...bout(260, 4, 5), samples: [{ row: 0, minute: 30, lactate: 5 }] }),
    /260 W has no sample at minute 10/,
  ],
  [
    'steady-state-bouts',
    'E_PROTOCOL',
    usual,
    /defined on a set of bouts at constant intensity; this is a step test/,
  ],
  [
    'dmax',
    'E_PROTOCOL',
    reversed([300, 290, 280, 270], [5, 6, 6, 5]),
    /defined on a step test; this is a test with falling/,
  ],
  ['fixed-4.0', 'E_NOT_REACHED', flat, /above the tested 340 W/],
  [
    'minimum-equivalent',
    'E_EDGE',
    stepTest(speeds, [1, 1.3, 1.7, 2.3, 3.4, 5, 8], running),
    /at the edge of the tested range/,
  ],
  ['dmax', 'E_SUBMAX', usual, /stopped well before/, { toExhaustion: false }],
  [
    'dmax-exponential',
    'E_SINGULAR',
    stepTest(watts, [1, 1.5, 2, 2.5, 3, 3.5, 4]),
    /cannot be fixed by these 7 readings/,
  ],
];

const refusalOf = (given: TestData, id: string, options: EstimateOptions = {}) =>
  estimateAll(given, { ...options, methods: [id] })[0]!.refused;

describe('refusals', () => {
  test.each(CASES)('%s: %s', (id, code, given, sentence, options) => {
    const refused = refusalOf(given, id, options);
    expect(refused?.code).toBe(code);
    expect(refused!.reason.replaceAll(THIN_SPACE, ' ')).toMatch(sentence);
  });

  test('a test with refusals of every code: each is reached somewhere above, and means something to a reader', () => {
    expect(new Set(CASES.map(([, code]) => code))).toEqual(new Set(REFUSAL_CODES));
    for (const code of REFUSAL_CODES) expect(REFUSAL_MEANINGS[code].length).toBeGreaterThan(20);
  });

  test('recovery is counted from the last stage: without its lactate on the curve there is none', () => {
    const given = {
      ...recovering(9, 8, 7),
      stages: usual.stages.map((s, i) => ({ ...s, minutes: i === 6 ? 2 : 3 })),
    };
    expect(refusalOf(given, 'individual-anaerobic')).toBeUndefined();
    const refused = refusalOf(given, 'individual-anaerobic', { lastStage: 'dropped' });
    expect(refused?.code).toBe('E_NO_RECOVERY');
    expect(refused?.reason).toMatch(/ends with the lactate of the last stage done.*samples are not used/);
    expect(refused?.reason).not.toMatch(/there are none/);
    expect(readingsOf(given, { lastStage: 'dropped' }).notes.join(' ')).toMatch(
      /recovery samples are not used/,
    );
  });

  test('recovery after an easier last stage is not used, and nobody is told that there are no samples', () => {
    const easier = stepTest([...watts, 200], [0.9, 0.8, 0.9, 1.1, 1.6, 2.9, 7.9, 6], { stageMinutes: 3 });
    const given = { ...easier, recovery: recovering(9, 8, 7).recovery! };
    expect(refusalOf(given, 'individual-anaerobic')?.reason).toMatch(/samples are not used/);
    expect(refusalOf(easier, 'individual-anaerobic')?.reason).toMatch(/there are none/);
  });

  test('a refusal shows what there is: a picture without an answer', () => {
    for (const [id, , given, , options] of CASES) {
      const { marks, caption } = constructionOf(readingsOf(given, options), id, options);
      expect(
        marks.some((m) => m.kind === 'point' && m.role === 'answer'),
        id,
      ).toBe(false);
      expect(caption.length).toBeGreaterThan(20);
    }
  });
});

/** What every method may say besides the reasons that it declares. */
const COMMON: RefusalCode[] = ['E_POINTS', 'E_PROTOCOL', 'E_SUBMAX'];

const lactates = fc.array(fc.double({ min: 0.3, max: 20, noNaN: true }), { minLength: 1, maxLength: 12 });
const protocols = fc.constantFrom<Exclude<Protocol, 'bouts'>>('step', 'lactate-minimum', 'reverse');
const anyCurve = fc.constantFrom<CurveId | null>(
  null,
  'raw',
  'cubic',
  'quartic',
  'exponential',
  'spline',
  'three-segment',
);

describe('laws', () => {
  test('whatever the readings: an answer inside the tested range or a declared reason, never anything else', {
    timeout: 60_000,
  }, () => {
    fc.assert(
      fc.property(lactates, protocols, anyCurve, fc.boolean(), (y, protocol, curve, runs) => {
        const x = y.map((_, i) => 8 + i);
        const order = protocol === 'reverse' ? x.toReversed() : x;
        const given: StepTest = {
          ...stepTest(order, y, { stageMinutes: 3, ...(runs && running) }),
          protocol,
          lactateBefore: 12,
          recovery: { samples: y.map((v, row) => ({ row, minute: row + 1, lactate: v })), mode: 'active' },
        };
        const readings = readingsOf(given);
        const visual = { LT1: [9, 10], LT2: [10, 11] };
        for (const estimate of estimateAll(given, {
          methods: METHODS.map((m) => m.id),
          curve,
          visual,
          toExhaustion: true,
        })) {
          if (estimate.refused) {
            const allowed = [...COMMON, ...methodById(estimate.method).refusals];
            expect(allowed, `${estimate.method}: ${estimate.refused.code}`).toContain(estimate.refused.code);
            expect(estimate.refused.reason).not.toMatch(/NaN|undefined|Infinity/);
          } else {
            expect(estimate.intensity, estimate.method).toBeGreaterThanOrEqual(readings.x[0]!);
            expect(estimate.intensity, estimate.method).toBeLessThanOrEqual(readings.x.at(-1)!);
            expect(Number.isFinite(estimate.lactate), estimate.method).toBe(true);
          }
          const { marks } = constructionOf(readings, estimate.method, { curve, visual });
          expect(JSON.stringify(marks), estimate.method).not.toMatch(/null/);
        }
      }),
      { seed: 3, numRuns: 150 },
    );
  });

  test('bouts: a steady one or a declared reason, and junk is refused as input', () => {
    const some = fc.array(
      fc.tuple(
        fc.integer({ min: 100, max: 400 }),
        fc.double({ min: 0.5, max: 15, noNaN: true }),
        fc.double({ min: 0.5, max: 15, noNaN: true }),
      ),
      { minLength: 1, maxLength: 6 },
    );
    fc.assert(
      fc.property(some, (rows) => {
        const given = bouts(...rows.map(([x, a, b]) => bout(x, a, b)));
        const distinct = new Set(rows.map(([x]) => x)).size === rows.length;
        if (!distinct) {
          expect(() => boutReadings(given)).toThrow(InputError);
          return;
        }
        const [estimate] = estimateAll(given);
        if (estimate!.refused)
          expect([...COMMON, ...methodById('steady-state-bouts').refusals]).toContain(estimate!.refused.code);
        else expect(rows.map(([x]) => x)).toContain(estimate!.intensity);
      }),
      { seed: 4, numRuns: 150 },
    );
    expect(() => boutReadings(bouts(bout(240, Number.NaN, 3)))).toThrow(InputError);
    expect(() => boutReadings(bouts({ ...bout(240, 2, 3), samples: [] }))).toThrow(/no bout has a lactate/);
    expect(() => boutReadings(bouts(bout(0, 2, 3)))).toThrow(/above 0/);
  });

  test('another unit of intensity rescales the answers of the special protocols', () => {
    const factor = 0.1;
    const scaled = (given: StepTest): StepTest => ({
      ...given,
      stages: given.stages.map((s) => ({ ...s, intensity: s.intensity * factor })),
    });
    const given = [
      minimumTest([5, 4, 3.5, 3.6, 4.5, 6], 9),
      reversed([300, 290, 280, 270, 260], [5, 6, 6.2, 5.5, 4]),
    ];
    for (const one of given) {
      const at = (t: StepTest) => {
        const [e] = estimateAll(t);
        return e!.refused ? Number.NaN : e!.intensity;
      };
      expect(at(scaled(one))).toBeCloseTo(factor * at(one), 9);
    }
  });
});

describe('sampling error of the special protocols', () => {
  const sample = (given: TestData, options: Partial<Parameters<typeof sampleThresholds>[1]> = {}) =>
    sampleThresholds(readingsOf(given), { error: HANDHELD, seed: 1, draws: 1000, ...options }).methods;

  test('recovery samples carry error too, and the headline stays what it was', () => {
    const given = recovering(9.2, 9, 8.2, 7, 6);
    const readings = readingsOf(given);
    const [got] = sample(given, { methods: ['individual-anaerobic'] });
    expect(got!.sd).toBeGreaterThan(1);
    expect(got!.interval95!.low.value!).toBeLessThan(got!.estimate.refused ? 0 : got!.estimate.intensity);
    expect([...readings.recovery!.lactate]).toEqual([9.2, 9, 8.2, 7, 6]);
    expect(refusalOf(given, 'individual-anaerobic')).toBeUndefined();
  });

  test('the chance that each bout is the highest steady one', () => {
    const [got] = sample(bouts(bout(240, 2, 2.3), bout(260, 3, 3.8), bout(270, 4, 6)));
    expect(got!.method).toBe('steady-state-bouts');
    const shares = new Map(got!.stages!.map(({ x, share }) => [x, share]));
    expect(shares.get(260)).toBeGreaterThan(0.5);
    // P(steady) of the bout at 260 W by Φ: rise 0.8, errors 0.15 and 4 % on 3.0 and 3.8, the display 0.029.
    expect(shares.get(240)!).toBeGreaterThan(0.05);
    expect((shares.get(240) ?? 0) + shares.get(260)!).toBeGreaterThan(0.95);
  });

  test('lactate minimum and reverse tests get an interval', () => {
    for (const given of [
      minimumTest([6, 4.5, 3.5, 3.6, 5, 7.5], 14),
      reversed([300, 285, 270, 255, 240], [4.5, 6, 6.6, 5.4, 3.8]),
    ]) {
      const [got] = sample(given);
      const { low, high } = got!.interval95!;
      const headline = got!.estimate.refused ? Number.NaN : got!.estimate.intensity;
      expect(low.value!).toBeLessThan(headline);
      expect(high.value!).toBeGreaterThan(headline);
    }
  });

  test('what raters say spreads as the raters do', () => {
    const [got] = sample(usual, {
      methods: ['visual-2'],
      options: { visual: { LT1: [], LT2: [280, 290, 300] } },
    });
    expect(got!.sd).toBeCloseTo(10, 10);
    expect(got!.interval95).toEqual({
      low: { value: 280, beyond: null },
      high: { value: 300, beyond: null },
    });
  });
});

test('every protocol has a name, and a method of its own', () => {
  const protocolsOfMethods = new Set(METHODS.map((m) => m.protocol));
  expect([...protocolsOfMethods].sort()).toEqual(Object.keys(PROTOCOL_NAMES).sort());
});
