import { describe, expect, test } from 'vitest';
import { HANDHELD, NO_ERROR } from '../../../src/physiology/errorModel.ts';
import { betweenNeighbours } from '../../../src/physiology/heartRate.ts';
import { groupsByIntensity } from '../../../src/physiology/training/session.ts';
import { combined, disagree, intensityChance } from '../../../src/physiology/training/sessionChances.ts';
import { lactateInRep, levelOf, stepToHeld } from '../../../src/physiology/training/sessionLevel.ts';
import { reviewSession } from '../../../src/physiology/training/sessionReview.ts';
import {
  constantLoad,
  RECREATIONAL_RUNNER,
  steadyStateOf,
  TRAINED_CYCLIST,
} from '../../../src/physiology/training/simulatedAthlete.ts';
import { simulatedStepTest } from '../../../src/physiology/training/simulatedAthleteTests.ts';
import { CONTEXT, type RepSpec, sessionOf, THRESHOLD } from './sessions.ts';

const review = (...reps: RepSpec[]) =>
  reviewSession(sessionOf(...reps), CONTEXT, THRESHOLD, { error: HANDHELD });
const fourAt = (at: number, lactates: readonly (number | null)[], more: RepSpec = {}) =>
  review(...lactates.map((lactate) => ({ at, lactate, ...more })));

describe('from the step test to intensity that is held', () => {
  // Outside reference: the simulated athletes, themselves checked against scipy (simulatedAthlete.test.ts).
  test.each([
    { type: TRAINED_CYCLIST, start: 100, increment: 40 },
    { type: RECREATIONAL_RUNNER, start: 6, increment: 1 },
  ])('the factor is that of the $type.name within its spread', ({ type, start, increment }) => {
    const steady = steadyStateOf(type);
    const held = (steady.lactate10 + steady.lactate30) / 2;
    for (const stageMinutes of [3, 4, 5, 8]) {
      const { stages } = simulatedStepTest(type, { start, increment, stageMinutes });
      const x = stages.map((s) => s.intensity);
      const step = betweenNeighbours(
        x,
        stages.map((s) => s.lactate!),
        steady.intensity,
      )!;
      expect(Math.abs(Math.log(held / step / stepToHeld(stageMinutes)))).toBeLessThan(2 * 0.15);
    }
  });

  test('a reading at minute 8 tells the level of an athlete below the steady state, and reads low above it', () => {
    const steady = steadyStateOf(TRAINED_CYCLIST).intensity;
    const course = { tau: 5.5, rest: 1.2 };
    const [at8, at30] = constantLoad(TRAINED_CYCLIST, 0.9 * steady, [8, 30]);
    expect(Math.abs(levelOf(1.2, at8!, 8, course) - at30!)).toBeLessThan(0.4);
    const [hard8, hard30] = constantLoad(TRAINED_CYCLIST, 1.06 * steady, [8, 30]);
    expect(levelOf(1.2, hard8!, 8, course)).toBeLessThan(hard30!);
  });

  test('level and reading are inverse to one another', () => {
    const course = { tau: 4, rest: 1 };
    for (const minute of [4, 6, 12])
      expect(levelOf(2, lactateInRep(2, 5, minute, course), minute, course)).toBeCloseTo(5, 12);
  });

  test('the median level is never above 5.0 mmol/L, near people at their steady state (Beneke 2000, abstract)', () => {
    const high = { ...THRESHOLD, stepLactate: 4 };
    const { held } = reviewSession(sessionOf({ lactate: 4 }), CONTEXT, high, { error: NO_ERROR });
    expect(held.median).toBeCloseTo(5, 1);
    const measured = reviewSession(
      sessionOf({ lactate: 4 }),
      CONTEXT,
      { ...high, steadyLactate: 6 },
      { error: NO_ERROR },
    );
    expect(measured.held.median).toBeCloseTo(6, 1);
  });
});

describe('three kinds of evidence, apart and together', () => {
  test('the chance by intensity is the share of the draws of LT2 below it', () => {
    expect(intensityChance(sessionOf({ at: 285 }).reps, THRESHOLD)).toEqual({
      chance: 300 / 401,
      basis: 'intensity',
    });
    expect(intensityChance(sessionOf({ at: null }).reps, THRESHOLD)).toBeNull();
  });

  test('without an intensity heart rate tells, with its own spread', () => {
    const at = (heartRate: number) => intensityChance(sessionOf({ at: null, heartRate }).reps, THRESHOLD)!;
    // Heart rate at 280 W is 164 bpm on a straight line.
    expect(at(164).basis).toBe('heart rate');
    expect(at(164).chance).toBeCloseTo(0.5, 2);
    expect(at(150).chance).toBeLessThan(0.02);
    expect(at(178).chance).toBeGreaterThan(0.98);
  });

  test('log-odds are averaged: opposite chances cancel, the missing are left out, none is believed without limit', () => {
    expect(combined({ intensity: 0.2, lactate: 0.8, drift: null })).toBeCloseTo(0.5, 12);
    expect(combined({ intensity: null, lactate: 0.7, drift: null })).toBeCloseTo(0.7, 12);
    expect(combined({ intensity: 1, lactate: 1, drift: 1 })).toBeCloseTo(0.97, 12);
    expect(combined({ intensity: null, lactate: null, drift: null })).toBeNull();
    // (ln 4 + ln 4 + ½ ln 9)/2.5 = 1.54848 by hand.
    expect(combined({ intensity: 0.8, lactate: 0.8, drift: 0.9 })).toBeCloseTo(
      1 / (1 + Math.exp(-1.54848)),
      5,
    );
  });

  test('disagreement needs both, and far apart', () => {
    expect(disagree({ intensity: 0.9, lactate: 0.1, drift: null })).toBe(true);
    expect(disagree({ intensity: 0.7, lactate: 0.4, drift: null })).toBe(false);
    expect(disagree({ intensity: 0.97, lactate: null, drift: 0.1 })).toBe(false);
  });

  test('high lactate that no longer rises is still above; rising lactate adds to it', () => {
    const flat = fourAt(290, [7.6, 8.3, 8.4, 8.4]);
    expect(flat.verdict).toBe('above');
    // Evidence for above begins at one half.
    expect(flat.evidence.drift).toBeLessThan(0.5);
    const rising = fourAt(280, [3.4, 4, 5.2, 6.4]);
    expect(rising.evidence.drift).toBeGreaterThan(0.9);
  });

  test('each reading has a chance of its own', () => {
    const { readings } = fourAt(280, [2, 2.4, 4.5, 6.5]);
    const chances = readings.map((r) => r.chance!);
    expect(chances).toEqual(chances.toSorted((a, b) => a - b));
    expect(readings.map((r) => r.work)).toEqual([8, 16, 24, 32]);
    for (const { level, lactate } of readings) expect(level!.high).toBeGreaterThan(lactate);
  });

  test('intensity and lactate far apart are said to disagree', () => {
    expect(fourAt(300, [1.8, 1.9, 1.8, 1.9])).toMatchObject({ disagreement: true, verdict: 'at' });
    expect(fourAt(295, [6, 7, 7.5, 8]).disagreement).toBe(false);
  });
});

describe('what readings can and cannot tell', () => {
  test('readings in the first minutes of a rep are too early', () => {
    const early = review({ lactate: 6, minute: 3 }, { lactate: 7, minute: 3 }, { lactate: 7, minute: 3.9 });
    expect(early.readings.map((r) => r.early)).toEqual([true, true, true]);
    expect(early.readings.map((r) => r.chance)).toEqual([null, null, null]);
    expect(early.evidence.lactate).toBeNull();
    expect(early).toMatchObject({ assessable: false, usable: 0 });
    expect(fourAt(260, [null, null], { minute: 3 }).verdict).toBe('not-assessable');
  });

  test('one reading is too few for a clear word, two are enough', () => {
    expect(fourAt(275, [null, 2.2, null, null]).verdict).toBe('not-assessable');
    expect(fourAt(275, [null, 2.2, null, 2.3]).verdict).toBe('under');
    expect(fourAt(300, [null, 9, null, null]).verdict).toBe('probably-above');
    expect(fourAt(300, [null, 9, null, 9]).verdict).toBe('above');
  });

  test('a drift needs three readings at the same minute of later reps, or of one long rep', () => {
    expect(fourAt(280, [3, 3.5, 4]).evidence.drift).toBeNull();
    expect(fourAt(280, [3, 3.5, 4, 4.5]).evidence.drift).not.toBeNull();
    const long = sessionOf({ minutes: 30 });
    long.reps[0]!.readings = [10, 20, 30].map((minute, row) => ({
      row,
      minute,
      lactate: 3 + minute / 10,
      heartRate: null,
      rpe: null,
    }));
    // 0.1 mmol/L/min is twice the rise of 0.05 from which an effort is not steady (Hauser 2014, abstract).
    expect(reviewSession(long, CONTEXT, THRESHOLD, { error: HANDHELD }).evidence.drift).toBeGreaterThan(0.95);
  });

  test('reps of another intensity are judged apart, and the hardest part decides', () => {
    const mixed = review(
      { at: 250, lactate: 1.8 },
      { at: 250, lactate: 1.9 },
      { at: 300, lactate: 5.5 },
      { at: 302, lactate: 7 },
    );
    expect(mixed).toMatchObject({ verdict: 'above', intensity: 301 });
    expect(mixed.decided.map((rep) => rep.number)).toEqual([3, 4]);
    expect(
      groupsByIntensity(sessionOf({ at: 280 }, { at: 250 }, { at: 284 }).reps).map((g) =>
        g.map((r) => r.number),
      ),
    ).toEqual([[2], [1, 3]]);
  });

  test('a reading far above both its neighbours is pointed out; rising or falling ones are not', () => {
    const doubtful = (lactates: number[]) => fourAt(280, lactates).doubtful.map((s) => s.rep.number);
    expect(doubtful([2.8, 4.6, 3, 3.1])).toEqual([2]);
    expect(doubtful([2.8, 3.4, 4.2, 5])).toEqual([]);
    expect(doubtful([5, 4, 3.5, 3])).toEqual([]);
    // 2√2 standard deviations of a handheld meter near 3 mmol/L are 0.54 mmol/L.
    expect(doubtful([2.8, 3.3, 2.8, 2.8])).toEqual([]);
    const harder = review({ at: 250, lactate: 2 }, { at: 300, lactate: 6 }, { at: 250, lactate: 3 });
    expect(harder.doubtful).toEqual([]);
  });

  test('a session in speed cannot be held against a test in power, one by heart rate can', () => {
    const session = sessionOf({ lactate: 3 });
    session.axis = 'speed';
    const judge = () => reviewSession(session, CONTEXT, THRESHOLD, { error: HANDHELD });
    expect(judge).toThrow('the session is given in speed, the step test in power; expected power in both');
    session.reps[0]!.intensity = null;
    expect(judge).not.toThrow();
  });

  test('without any threshold the lactate of people decides alone', () => {
    const none = { ...THRESHOLD, draws: new Float64Array(0), stepLactate: null };
    const judged = (lactate: number) =>
      reviewSession(sessionOf({ lactate }, { lactate }), CONTEXT, none, { error: HANDHELD });
    expect(judged(10)).toMatchObject({ verdict: 'above', basis: null });
    expect(judged(1.5).verdict).toBe('under');
  });

  test('the same seed gives the same review, another one nearly the same', () => {
    const at = (seed: number) =>
      reviewSession(sessionOf({ lactate: 3.3 }, { lactate: 3.4 }), CONTEXT, THRESHOLD, {
        error: HANDHELD,
        seed,
      });
    expect(at(1)).toEqual(at(1));
    // Four standard errors of a share at 2000 draws, for the difference of two.
    expect(Math.abs(at(1).evidence.lactate! - at(2).evidence.lactate!)).toBeLessThan(
      4 * Math.sqrt((2 * 0.25) / 2000),
    );
  });
});
