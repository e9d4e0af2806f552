import { describe, expect, test } from 'vitest';
import { type EstimateOptions, estimateAll } from '../../src/physiology/estimate.ts';
import type { TestData } from '../../src/physiology/stepTest.ts';
import { digits } from '../digits.ts';
import reference from '../references/made-up/protocols.json' with { type: 'json' };
import { stepTest } from './stepTests.ts';

// tests/references/made-up/protocols.py made these in fractions and with 30 digits.
type Answer = number | string;

function answerOf(given: TestData, id: string, options: EstimateOptions = {}): Answer {
  const [estimate] = estimateAll(given, { ...options, methods: [id] });
  return estimate!.refused ? estimate!.refused.code : estimate!.intensity;
}

function expectAnswer(got: Answer, expected: Answer): void {
  if (typeof expected === 'string' || typeof got === 'string') expect(got).toBe(expected);
  else expect(digits(got, expected), `${got} for ${expected}`).toBeGreaterThan(9);
}

const samplesOf = (minutes: number[], lactates: number[]) =>
  minutes.map((minute, row) => ({ row, minute, lactate: lactates[row]! }));

describe('individual anaerobic threshold', () => {
  test.each(reference.individual)('$name', ({ axis, x, y, stageMinutes, minute, lactate, ...expected }) => {
    const given = stepTest(x, y, {
      ...(axis === 'speed' ? { sport: 'running', axis } : {}),
      stageMinutes,
      recovery: { samples: samplesOf(minute, lactate), mode: null },
    });
    for (const curve of ['exponential', 'cubic'] as const) {
      expectAnswer(answerOf(given, 'individual-anaerobic', { curve }), expected[curve]);
    }
  });
});

test.each(reference.minimum)('lactate minimum: $answer from $before', ({ x, y, before, answer }) => {
  const given = stepTest(x, y, { protocol: 'lactate-minimum', lactateBefore: before });
  expectAnswer(answerOf(given, 'lactate-minimum'), answer);
});

test.each(reference.reverse)('reverse: $answer', ({ x, y, answer }) => {
  expectAnswer(answerOf(stepTest(x, y, { protocol: 'reverse' }), 'reverse'), answer);
});

test.each(reference.bouts)('steady-state bouts: $answer', ({ bouts, answer }) => {
  const given: TestData = {
    protocol: 'bouts',
    sport: 'cycling',
    axis: 'power',
    bouts: (bouts as [number, number[]][]).map(([intensity, lactates]) => ({
      intensity,
      samples: samplesOf([10, 15, 20, 25, 30].slice(0, lactates.length), lactates),
      completed: lactates.length === 5,
    })),
    bodyMass: null,
    notes: [],
  };
  expectAnswer(answerOf(given, 'steady-state-bouts'), answer);
});

describe('the reference itself', () => {
  test('holds answers and refusals of each kind', () => {
    const kinds = (answers: Answer[]) => new Set(answers.map((a) => (typeof a === 'string' ? a : 'answer')));
    expect(kinds(reference.individual.flatMap((c) => [c.exponential, c.cubic]))).toEqual(
      new Set(['answer', 'E_NO_RETURN', 'E_SINGULAR', 'E_NOT_CONVEX']),
    );
    expect(kinds(reference.minimum.map((c) => c.answer))).toEqual(
      new Set(['answer', 'E_NO_HYPERLACT', 'E_EDGE', 'E_NO_MIN']),
    );
    expect(kinds(reference.reverse.map((c) => c.answer))).toEqual(new Set(['answer', 'E_EDGE']));
    expect(kinds(reference.bouts.map((c) => c.answer))).toEqual(
      new Set(['answer', 'E_NOT_REACHED', 'E_PROTOCOL']),
    );
  });

  test('the check can fail', () => {
    expect(() => expectAnswer(250.000001, 250)).toThrow();
    expect(() => expectAnswer('E_EDGE', 250)).toThrow();
    expect(() => expectAnswer(250, 'E_EDGE')).toThrow();
    expect(() => expectAnswer(Number.NaN, 250)).toThrow();
  });
});
