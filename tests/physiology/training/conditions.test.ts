import { describe, expect, test } from 'vitest';
import type { Stage } from '../../../src/physiology/stepTest.ts';
import { CONDITION_EFFECTS, effectsOf, looksDepleted } from '../../../src/physiology/training/conditions.ts';

const stages = (lactates: (number | null)[], exertion: number | null): { stages: Stage[] } => ({
  stages: lactates.map((lactate, row) => ({
    row,
    intensity: 100 + 30 * row,
    lactate,
    heartRate: null,
    rpe: row === lactates.length - 1 ? exertion : null,
    minutes: 4,
  })),
});

describe('what the day does to lactate', () => {
  test('low carbohydrate pushes thresholds up, heat and caffeine down, a meal hardly at all', () => {
    expect(CONDITION_EFFECTS['low-carbohydrate'].pushes).toBe('higher');
    expect(CONDITION_EFFECTS.heat.pushes).toBe('lower');
    expect(CONDITION_EFFECTS.caffeine.pushes).toBe('lower');
    expect(CONDITION_EFFECTS.fasting.pushes).toBe('little');
  });

  test('only what applied, illness first; each says where it comes from', () => {
    const effects = effectsOf({ fasting: true, illness: true, heat: false });
    expect(effects.map(({ condition }) => condition)).toEqual(['illness', 'fasting']);
    for (const { source } of Object.values(CONDITION_EFFECTS))
      expect(source).toMatch(/abstract|memory|common practice/);
  });

  test('illness gives no advice on food and defers to a doctor', () => {
    const { advice } = CONDITION_EFFECTS.illness;
    expect(advice).toMatch(/No advice on food/);
    expect(advice).toMatch(/doctor/);
  });
});

describe('low stores', () => {
  test.each([
    [[0.8, 0.9, 1.2, 2.1, 4.2], 19, true],
    [[0.8, 0.9, 1.2, 3.1, 8.2], 19, false],
    [[1.4, 1.5, 1.8, 2.6, 4.2], 19, false],
    [[0.8, 0.9, 1.2, 2.1, 4.2], 14, false],
    // On the 0–10 scale, and without exertion, nothing can be said.
    [[0.8, 0.9, 1.2, 2.1, 4.2], 9, null],
    [[0.8, 0.9, 1.2, 2.1, 4.2], null, null],
    [[0.8, null, null, 4.2], 19, null],
  ])('%j at an exertion of %s: %s', (lactates, exertion, expected) => {
    expect(looksDepleted(stages(lactates, exertion))).toBe(expected);
  });
});
