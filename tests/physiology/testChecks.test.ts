import { describe, expect, test } from 'vitest';
import type { StepTest } from '../../src/physiology/stepTest.ts';
import { checkTest, type Finding, type FindingCode } from '../../src/physiology/testChecks.ts';
import { REAL, stepTest } from './stepTests.ts';

/** A test that nothing is to be said against. */
const x = [100, 130, 160, 190, 220, 250, 280, 310];
const y = [1, 1, 1.1, 1.2, 1.6, 2.5, 4.3, 8];
const faultless = (): Parameters<typeof stepTest>[2] => ({
  restLactate: 1.1,
  stageMinutes: 4,
  heartRate: [105, 115, 126, 137, 148, 159, 169, 178],
  minutes: x.map(() => 4),
  rpe: [8, 9, 11, 12, 13, 15, 17, 19],
});

const codes = (given: StepTest) => checkTest(given).map((f) => f.code);
const find = (given: StepTest, code: FindingCode): Finding | undefined =>
  checkTest(given).find((f) => f.code === code);

describe('checks of a test', () => {
  test('a faultless test gives no finding', () => {
    expect(checkTest(stepTest(x, y, faultless()))).toEqual([]);
  });

  const faults: [FindingCode, StepTest, number[]][] = [
    ['too-few-stages', stepTest(x.slice(0, 6), y.slice(2), { ...faultless(), heartRate: [] }), []],
    ['no-rest', stepTest(x, y, { ...faultless(), restLactate: null }), []],
    ['raised-rest', stepTest(x, y, { ...faultless(), restLactate: 2.4 }), []],
    ['raised-start', stepTest(x, [1.6, ...y.slice(1)], faultless()), [0]],
    ['falling-reading', stepTest(x, [1, 1, 1.1, 1.2, 3, 2.3, 4.3, 8], faultless()), [5]],
    ['suspicious-reading', stepTest(x, [1, 1, 1.1, 2.4, 1.6, 2.5, 4.3, 8], faultless()), [3]],
    ['short-stages', stepTest(x, y, { ...faultless(), stageMinutes: 1, minutes: x.map(() => 1) }), []],
    ['unknown-stage-length', stepTest(x, y, { ...faultless(), stageMinutes: null, minutes: [] }), []],
    ['incomplete-last', stepTest(x, y, { ...faultless(), minutes: [4, 4, 4, 4, 4, 4, 4, 2.5] }), [7]],
    ['incomplete-stage', stepTest(x, y, { ...faultless(), minutes: [4, 4, 3, 4, 4, 4, 4, 4] }), [2]],
    ['not-to-exhaustion', stepTest(x, y, { ...faultless(), rpe: [] }), []],
    ['uneven-steps', stepTest([100, 130, 160, 190, 220, 250, 300, 330], y, faultless()), [6]],
    ['implausible-lactate', stepTest(x, [0.1, ...y.slice(1)], faultless()), [0]],
    ['implausible-intensity', stepTest([...x.slice(0, -1), 2500], y, faultless()), [7]],
    ['repeated-intensity', stepTest([...x, 100], [...y, 1.1], { ...faultless(), minutes: [] }), [0, 8]],
    [
      'falling-intensity',
      stepTest([100, 130, 160, 130, 220, 250, 280, 310], y, { ...faultless(), heartRate: [] }),
      [3],
    ],
    ['missing-lactate', stepTest([...x, 340], [...y, null], { ...faultless() }), [8]],
    [
      'heart-rate-not-rising',
      stepTest(x, y, { ...faultless(), heartRate: [105, 115, 126, 124, 148, 159, 169, 178] }),
      [3],
    ],
  ];

  test.each(faults)('%s is found, at its stages, and says what it does', (code, given, stages) => {
    const found = find(given, code);
    expect(found?.stages).toEqual(stages);
    expect(found!.title.length).toBeGreaterThan(5);
    expect(found!.meaning.length).toBeGreaterThan(40);
  });

  test('what is a fault in a step test only is none where lactate falls on purpose', () => {
    const given = stepTest([300, 290, 280, 270, 260], [5, 6, 6.2, 4.5, 3], { stageMinutes: 4 });
    expect(find(given, 'falling-reading')).toBeDefined();
    expect(checkTest({ ...given, protocol: 'reverse' }).map((f) => f.code)).not.toContain('falling-reading');
    expect(find({ ...given, protocol: 'reverse', stageMinutes: 2 }, 'short-stages')).toBeDefined();
  });

  test('too few stages names the methods that are lost', () => {
    expect(find(faults[0]![1], 'too-few-stages')!.meaning).toMatch(/Turn point 1; Turn point 2/);
    expect(find(faults[0]![1], 'too-few-stages')!.tone).toBe('caution');
    expect(find(stepTest([100, 150], [1, 3]), 'too-few-stages')!.tone).toBe('problem');
  });

  test('a last stage less than half done is a caution, not a note', () => {
    const done = (minutes: number) =>
      find(stepTest(x, y, { ...faultless(), minutes: [4, 4, 4, 4, 4, 4, 4, minutes] }), 'incomplete-last')!;
    expect(done(3).tone).toBe('note');
    expect(done(3).meaning).toMatch(/303.W/);
    expect(done(1).tone).toBe('caution');
    expect(done(1).meaning).toMatch(/left off/);
  });

  test('gravest first', () => {
    const given = stepTest([100, 150, 200], [0.1, 2, 4]);
    const rank = ['problem', 'caution', 'note'];
    const order = checkTest(given).map((f) => rank.indexOf(f.tone));
    expect(order).toEqual([...order].sort());
    expect(order[0]).toBe(0);
  });

  test('the elevated baseline of a real classroom test: a caution on rest, never a silent baseline', () => {
    // Resting 6.8 mmol/L, then 3.4 at 36 W; numbers of a published coursework page.
    const given = stepTest([36, 62, 87, 112, 137], [3.4, 5, 7, 8.6, 16.9], { restLactate: 6.8 });
    expect(find(given, 'raised-rest')?.tone).toBe('caution');
  });

  test('real tests: the ones whose first stage is well above the lowest are found', () => {
    for (const [name, { intensity, lactate }] of REAL) {
      const raised = lactate[0]! - Math.min(...lactate) > 0.4;
      expect(codes(stepTest(intensity, lactate)).includes('raised-start'), name).toBe(raised);
    }
  });
});
