import { describe, expect, test } from 'vitest';
import { readingsOf } from '../../src/physiology/boutReadings.ts';
import type { Construction, Mark } from '../../src/physiology/construction.ts';
import { constructionOf } from '../../src/physiology/constructionOf.ts';
import { fitCurve } from '../../src/physiology/curves/index.ts';
import { estimateReadings } from '../../src/physiology/estimate.ts';
import { METHODS, needsOf } from '../../src/physiology/methods/index.ts';
import type { MethodOptions } from '../../src/physiology/methods/method.ts';
import type { StepTest, TestData } from '../../src/physiology/stepTest.ts';
import { stepTest, TEN_PRE } from './stepTests.ts';

const runner: StepTest = {
  ...stepTest([8, 9, 10, 11, 12, 13, 14, 15], [1.3, 1.2, 1.3, 1.5, 1.9, 2.7, 4.2, 7.1], {
    sport: 'running',
    axis: 'speed',
    stageMinutes: 4,
  }),
  recovery: {
    samples: [1, 3, 5, 8].map((minute, row) => ({ row, minute, lactate: [7.9, 8, 7.4, 5.5][row]! })),
    mode: 'passive',
  },
};
const minimum: StepTest = {
  ...stepTest([180, 200, 220, 240, 260, 280], [5, 4, 3.5, 3.6, 4.5, 6]),
  protocol: 'lactate-minimum',
  lactateBefore: 9,
};
const reversed: StepTest = {
  ...stepTest([300, 290, 280, 270, 260], [5, 6, 6.2, 5.5, 4]),
  protocol: 'reverse',
};
const bouts: TestData = {
  protocol: 'bouts',
  sport: 'cycling',
  axis: 'power',
  bouts: [
    [240, 2, 2.3],
    [260, 3, 3.8],
    [270, 4, 6],
  ].map(([intensity, a, b]) => ({
    intensity: intensity!,
    completed: true,
    samples: [
      { row: 0, minute: 10, lactate: a! },
      { row: 1, minute: 30, lactate: b! },
    ],
  })),
  bodyMass: null,
  notes: [],
};
const TESTS = { step: runner, 'lactate-minimum': minimum, reverse: reversed, bouts } satisfies Record<
  string,
  TestData
>;
const options: Partial<MethodOptions> = { visual: { LT1: [10, 11], LT2: [12, 13] } };

const built = (id: string, given: TestData, more: Partial<MethodOptions> = {}): Construction =>
  constructionOf(readingsOf(given), id, { ...options, ...more });
const marksOf = <K extends Mark['kind']>({ marks }: Construction, kind: K) =>
  marks.filter((mark): mark is Extract<Mark, { kind: K }> => mark.kind === kind);
const answerIn = (construction: Construction) =>
  marksOf(construction, 'point').find((p) => p.role === 'answer')?.at;

describe.each(METHODS)('$id', (method) => {
  const given = TESTS[method.protocol];
  const [estimate] = estimateReadings(readingsOf(given), { ...options, methods: [method.id] });
  const construction = built(method.id, given);

  test('shows readings, and the answer where the method put it', () => {
    expect(marksOf(construction, 'readings').length).toBeGreaterThan(0);
    const at = answerIn(construction);
    if (estimate!.refused) {
      expect(at).toBeUndefined();
      return;
    }
    const { intensity, lactate } = estimate!;
    const { x, y } = construction.axes;
    if (x === 'intensity') expect(at![0]).toBeCloseTo(intensity, 9);
    if (y === 'lactate') expect(at![1]).toBeCloseTo(lactate, 9);
    if (y === 'equivalent') expect(at![1] * intensity).toBeCloseTo(lactate, 9);
  });

  test('holds plain finite numbers, so that it can be cloned and drawn', () => {
    expect(structuredClone(construction)).toEqual(construction);
    const numbers = JSON.stringify(construction.marks);
    expect(numbers).not.toContain('null');
    for (const { x, y } of marksOf(construction, 'curve')) expect(x).toHaveLength(y.length);
  });

  test('says what it needs and when it refuses', () => {
    expect(needsOf(method).length).toBeGreaterThan(0);
    expect(method.refusals.length).toBeGreaterThan(0);
  });
});

describe('geometry', () => {
  const slopeOf = ({ from, to }: { from: readonly number[]; to: readonly number[] }) =>
    (to[1]! - from[1]!) / (to[0]! - from[0]!);
  const lineOf = (construction: Construction, role: string) =>
    marksOf(construction, 'line').find((line) => line.role === role)!;

  test.each(['dmax', 'dmax-exponential', 'modified-dmax', 'modified-dmax-exponential'])(
    '%s: no point of the curve lies farther below the chord than the answer; the tangent runs parallel',
    (id) => {
      const construction = built(id, TEN_PRE);
      const chord = lineOf(construction, 'chord');
      const [x, y] = answerIn(construction)!;
      const below = (px: number, py: number) => chord.from[1] + slopeOf(chord) * (px - chord.from[0]) - py;
      const [curve] = marksOf(construction, 'curve');
      curve!.x.forEach((px, i) => {
        if (px >= chord.from[0]) expect(below(px, curve!.y[i]!)).toBeLessThanOrEqual(below(x, y) + 1e-9);
      });
      expect(slopeOf(lineOf(construction, 'tangent'))).toBeCloseTo(slopeOf(chord), 12);
      expect(marksOf(construction, 'drop')[0]).toMatchObject({ from: [x, y], onto: [chord.from, chord.to] });
    },
  );

  test('the minimum equivalent is the lowest place of its picture', () => {
    const construction = built('minimum-equivalent', TEN_PRE);
    const [curve] = marksOf(construction, 'curve');
    expect(answerIn(construction)![1]).toBeLessThanOrEqual(Math.min(...curve!.y) + 1e-12);
    expect(construction.axes.y).toBe('equivalent');
  });

  test('the line from the recovery touches the curve and nowhere lies above it', () => {
    const construction = built('individual-anaerobic', runner);
    const line = lineOf(construction, 'tangent');
    const [curve] = marksOf(construction, 'curve');
    curve!.x.forEach((t, i) => {
      expect(line.from[1] + slopeOf(line) * (t - line.from[0])).toBeLessThanOrEqual(curve!.y[i]! + 1e-9);
    });
    expect(line.to[1]).toBeCloseTo(7.1, 9);
    expect(construction.axes.x).toBe('minute');
  });

  test('the fixed slope is drawn with that slope', () => {
    expect(slopeOf(lineOf(built('fixed-slope', runner), 'tangent'))).toBeCloseTo(1.26, 12);
  });

  test('the bisector halves the angle of the two tangents', () => {
    const construction = built('bisector', runner);
    const [first, last] = marksOf(construction, 'line').filter((line) => line.role === 'tangent');
    const half = lineOf(construction, 'bisector');
    const angle = (from: readonly number[], to: readonly number[]) =>
      Math.atan2(to[1]! - from[1]!, to[0]! - from[0]!);
    const left = angle(first!.to, first!.from) + 2 * Math.PI;
    expect((angle(half.from, half.to) + 2 * Math.PI) % (2 * Math.PI)).toBeCloseTo(
      (left + angle(last!.from, last!.to)) / 2,
      9,
    );
  });

  test('log–log lines meet at the answer, bends are corners of the curve', () => {
    const logLog = built('log-log', TEN_PRE);
    const [left, right] = marksOf(logLog, 'line');
    expect([left!.to, right!.from]).toEqual([answerIn(logLog), answerIn(logLog)]);
    expect(logLog.axes.logarithmic).toBe(true);
    const corners = marksOf(built('turn-point-1', TEN_PRE), 'point').filter((p) => p.role === 'corner');
    expect(corners.map((c) => c.at[0])).toEqual([...breakpoints()]);
  });

  const breakpoints = () => {
    const curve = fitCurve(readingsOf(TEN_PRE), { model: 'three-segment' });
    return (curve as unknown as { breakpoints: Float64Array }).breakpoints;
  };

  test('a method that refused still shows the target it did not reach', () => {
    const construction = built('fixed-4.0', stepTest([100, 150, 200, 250], [1, 1.1, 1.3, 1.8]));
    expect(marksOf(construction, 'level')).toEqual([
      { kind: 'level', y: 4, label: expect.stringContaining('4.00') },
    ]);
    expect(answerIn(construction)).toBeUndefined();
  });

  test('bouts show their rises, the limit and the bracket', () => {
    const construction = built('steady-state-bouts', bouts);
    expect(marksOf(construction, 'readings')[0]!.y.map((v) => Number(v.toFixed(6)))).toEqual([0.3, 0.8, 2]);
    expect(marksOf(construction, 'level')[0]!.y).toBe(1);
    expect(marksOf(construction, 'span')[0]).toMatchObject({ from: 260, to: 270 });
  });
});
