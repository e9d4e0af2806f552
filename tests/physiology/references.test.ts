import { describe, expect, test } from 'vitest';
import { fitCurve, LogLogFit, MODELS } from '../../src/physiology/curves/index.ts';
import type { SegmentedCurve } from '../../src/physiology/curves/segmentedCurve.ts';
import { type EstimateOptions, estimateAll } from '../../src/physiology/estimate.ts';
import { METHODS } from '../../src/physiology/methods/index.ts';
import { usableReadings } from '../../src/physiology/readings.ts';
import type { BaselineRule, CurveId, StepTest } from '../../src/physiology/stepTest.ts';
import { digits } from '../digits.ts';
import reference from '../references/made-up/thresholds.json' with { type: 'json' };
import { stepTest } from './stepTests.ts';

// tests/references/made-up/thresholds.py made these from the papers' definitions, in fractions and 30 digits.
interface Segments {
  sse: number;
  breakpoints: number[][];
}
type Lines = Partial<Record<'two-segment' | 'three-segment' | 'log-log', Segments>>;
/** An intensity, or the code of a refusal. */
type Answer = number | string;

const IDS = new Set(METHODS.map((method) => method.id));
const TESTS = reference.tests.map(({ name, axis, x, y, segments, answers }) => ({
  name,
  given: stepTest(x, y, axis === 'speed' ? { sport: 'running', axis } : {}),
  segments: segments as Lines,
  answers: answers as Answer[],
}));

/** 'dmax ends=measured' as a method and the options it is asked with. */
function caseOf(text: string): { id: string; options: EstimateOptions } {
  const [id, ...settings] = text.split(' ');
  const { curve, baseline, ends, anchor, slope } = Object.fromEntries(settings.map((s) => s.split('=')));
  return {
    id: id!,
    options: {
      ...(curve && { curve: curve as CurveId }),
      ...(baseline && { baseline: baseline as BaselineRule }),
      ...(ends && { ends: ends as 'fitted' | 'measured' }),
      ...(anchor && { anchor: anchor as 'baseline' | 'previous-stage' }),
      ...(slope && { slope: Number(slope) }),
    },
  };
}

function answerOf(given: StepTest, text: string): Answer {
  const { id, options } = caseOf(text);
  const [estimate] = estimateAll(given, { ...options, methods: [id] });
  return estimate!.refused ? estimate!.refused.code : estimate!.intensity;
}

/** Digits the issue of this work asks for. */
const ASKED = 6;

/** What is wrong with an answer, in words; null when nothing is. */
function fault(got: Answer, expected: Answer, asked = ASKED): string | null {
  if (typeof expected === 'string' || typeof got === 'string') {
    return got === expected ? null : `${got}, expected ${expected}`;
  }
  const seen = digits(got, expected);
  return seen >= asked ? null : `${got}, expected ${expected}: ${seen.toFixed(1)} digits`;
}

/** Methods that need more than stages: references-protocols.test.ts; what raters see has no outside answer. */
const ELSEWHERE = [
  'individual-anaerobic',
  'visual-1',
  'visual-2',
  'lactate-minimum',
  'steady-state-bouts',
  'reverse',
];

describe.each(TESTS)('$name', ({ given, segments, answers }) => {
  test('every method on every curve, answers and refusals', () => {
    const faults = reference.cases.flatMap((text, i) => {
      const wrong = fault(answerOf(given, text), answers[i]!);
      return wrong ? [`${text}: ${wrong}`] : [];
    });
    expect(faults).toEqual([]);
  });

  test('lines of two and three pieces are the best there are', () => {
    const { x, y, count } = usableReadings(given);
    const spread = spreadOf(y, count);
    for (const model of ['two-segment', 'three-segment'] as const) {
      const expected = segments[model];
      if (!expected) continue;
      const curve = fitCurve({ x, y, count }, { model }) as unknown as SegmentedCurve & { sse: number };
      expect(curve.status).toBe('ok');
      expect(Math.abs(curve.sse - expected.sse) / spread, model).toBeLessThan(1e-12);
      // Of equally good lines the one that bends first, as src/numerics/brokenLine.ts declares.
      expectPlaces(curve.breakpoints, expected.breakpoints[0]!, x);
    }
    if (!segments['log-log']) return;
    const logLog = new LogLogFit(x, Float64Array.from(count));
    expect(logLog.fit(y)).toBe('ok');
    const logs = y.map(Math.log);
    const sse = x.reduce((sum, v, i) => sum + count[i]! * (Math.log(logLog.at(v)) - logs[i]!) ** 2, 0);
    expect(Math.abs(sse - segments['log-log'].sse) / spreadOf(logs, count)).toBeLessThan(1e-12);
  });
});

function spreadOf(y: Float64Array, count: ArrayLike<number>): number {
  const total = y.reduce((sum, _, i) => sum + count[i]!, 0);
  const mean = y.reduce((sum, v, i) => sum + count[i]! * v, 0) / total;
  return y.reduce((sum, v, i) => sum + count[i]! * (v - mean) ** 2, 0);
}

function expectPlaces(got: ArrayLike<number>, expected: number[], x: Float64Array): void {
  expected.forEach((place, j) => {
    expect(Math.abs(got[j]! - place) / (x.at(-1)! - x[0]!), `breakpoint ${j + 1}`).toBeLessThan(1e-8);
  });
}

describe('the reference itself', () => {
  test('covers at least 40 made-up tests, all real ones and every curve and method but those named here', () => {
    const real = TESTS.filter(({ name }) => name.startsWith('real '));
    expect(real).toHaveLength(16);
    expect(TESTS.length - real.length).toBeGreaterThanOrEqual(40);
    const covered = new Set(reference.cases.map((text) => caseOf(text).id));
    expect([...IDS].filter((id) => !covered.has(id))).toEqual(ELSEWHERE);
    const curves = new Set(reference.cases.map((text) => caseOf(text).options.curve));
    expect(Object.keys(MODELS).filter((model) => !curves.has(model as CurveId))).toEqual([]);
  });

  test('every method answers somewhere, and every refusal of theirs is met', () => {
    const codes = new Set(TESTS.flatMap(({ answers }) => answers.filter((a) => typeof a === 'string')));
    expect([...codes].sort()).toEqual(
      'E_ALREADY_ABOVE E_EDGE E_NOT_CONVEX E_NOT_REACHED E_NO_RISE E_POINTS E_SCALE E_SINGULAR'.split(' '),
    );
    reference.cases.forEach((text, i) => {
      const answered = TESTS.filter(({ answers }) => typeof answers[i] === 'number').length;
      expect(answered, text).toBeGreaterThan(5);
    });
  });

  test('equally good lines occur', () => {
    const tied = TESTS.filter(({ segments }) =>
      Object.values(segments).some((s) => s.breakpoints.length > 1),
    );
    expect(tied.length).toBeGreaterThan(0);
  });

  test('the check can fail', () => {
    expect(fault(200.001, 200)).toMatch(/5\.3 digits/);
    expect(fault('E_EDGE', 200)).toBe('E_EDGE, expected 200');
    expect(fault(200, 'E_EDGE')).toBe('200, expected E_EDGE');
    expect(fault('E_EDGE', 'E_NO_RISE')).not.toBeNull();
    expect(fault(Number.NaN, 200)).not.toBeNull();
    expect([fault(200.0001, 200), fault('E_EDGE', 'E_EDGE')]).toEqual([null, null]);
    expect(() => expectPlaces([200.00001], [200], Float64Array.of(100, 300))).toThrow('breakpoint 1');
  });
});
