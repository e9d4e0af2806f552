import { describe, expect, test } from 'vitest';
import { HANDHELD } from '../../../src/physiology/errorModel.ts';
import { nextSession, type PlanInputs } from '../../../src/physiology/training/nextSession.ts';
import type { Verdict } from '../../../src/physiology/training/sessionDecision.ts';
import { reviewSession, type SessionReview } from '../../../src/physiology/training/sessionReview.ts';
import { CONTEXT, type RepSpec, sessionOf, THRESHOLD } from './sessions.ts';

const INPUTS: PlanInputs = {
  threshold: THRESHOLD,
  review: null,
  before: null,
  restMinutes: 2,
  error: HANDHELD,
};
const plan = (given: Partial<PlanInputs> = {}) => nextSession({ ...INPUTS, ...given });

const done = (reserve: number | null, ...reps: RepSpec[]) =>
  reviewSession(sessionOf(...reps), { ...CONTEXT, reserve }, THRESHOLD, { error: HANDHELD });
/** A review of four reps of eight minutes at 265 W with another verdict put in. */
const called = (verdict: Verdict, at = 265): SessionReview => ({
  ...done(4, ...Array<RepSpec>(4).fill({ at, lactate: 2.8, rpe: 14 })),
  verdict,
});

describe('intensity of the next session', () => {
  test('its upper end is the intensity that nine draws of ten lie at or above', () => {
    // Draws evenly from 270 to 290 W: 10 % lie below 272 W.
    const { intensity, stay, heartRate } = plan();
    expect(intensity).toEqual({ from: 0.97 * 272, to: 272, limitedBy: 'error' });
    expect(stay).toBeCloseTo(0.9, 2);
    // 155 + (272 − 250)·0.3 = 161.6 bpm, rounded down.
    expect(heartRate).toBe(161);
    expect(plan({ stay: 0.5 }).intensity!.to).toBeCloseTo(280, 1);
  });

  test('a wider error lowers it, keeps reps short and says so', () => {
    const wide = { ...THRESHOLD, draws: THRESHOLD.draws.map((x) => 280 + 3 * (x - 280)) };
    expect(plan({ threshold: wide }).intensity!.to).toBeCloseTo(256, 1);
    const unsure = plan({ threshold: wide, review: called('on-target') });
    expect(unsure).toMatchObject({ unsure: true, longReps: null });
    expect(unsure.reps.minutes).toBeLessThanOrEqual(8);
    expect(plan().unsure).toBe(false);
  });

  test.each<[Verdict, Verdict | null, number]>([
    ['above', null, 0.97 * 265],
    ['probably-above', null, 0.98 * 265],
    ['drifting', null, 0.98 * 265],
    ['too-hard', null, 0.95 * 265],
    ['on-target', null, 265],
    ['mismatch', null, 265],
    ['not-assessable', null, 265],
    ['below', null, 265],
    ['below', 'below', 1.02 * 265],
  ])('after %s (before it %s) it follows the decision table', (verdict, before, to) => {
    expect(plan({ review: called(verdict), before }).intensity!.to).toBeCloseTo(to, 10);
  });

  test('it never leaves what the test allows: too far above is not mended by 3 %', () => {
    expect(plan({ review: called('above', 310) }).intensity).toMatchObject({ to: 272, limitedBy: 'error' });
    const twice = plan({ review: called('below', 269), before: 'below' });
    expect(twice).toMatchObject({ intensity: { to: 272 }, retest: true });
    expect(plan({ review: called('below', 250), before: 'below' }).retest).toBe(false);
  });

  test('what the session said moves the limit: half of the draws below it, but a chance of 0.2', () => {
    const good = { ...called('on-target', 280), chance: 0.2 };
    const to = (review: SessionReview) => plan({ review }).intensity!.to;
    // 10 % of the weight is half of that of the draws from 270 to 280 W; draws lie 0.05 W apart.
    expect(Math.abs(to(good) - 275)).toBeLessThan(0.06);
    expect(plan({ review: good }).stay).toBeCloseTo(0.9, 2);
    // A chance of 0.8: an eighth of those draws holds 10 % of the weight.
    expect(Math.abs(to({ ...good, chance: 0.8 }) - 271.25)).toBeLessThan(0.06);
    expect(Math.abs(to({ ...good, assessable: false }) - 272)).toBeLessThan(0.06);
  });

  test('without a threshold there is no figure, only feel', () => {
    const none = plan({ threshold: { ...THRESHOLD, draws: new Float64Array(0), stepLactate: null } });
    expect(none).toMatchObject({ intensity: null, stay: null, heartRate: null, unsure: true });
    expect(none.exertion).toEqual({ scale: '6-20', from: 13, to: 15 });
    const beyond = THRESHOLD.draws.map(() => Number.POSITIVE_INFINITY);
    expect(plan({ threshold: { ...THRESHOLD, draws: beyond } }).intensity).toBeNull();
  });
});

describe('reps of the next session', () => {
  test('it begins with reps of usual length (common practice: 6 to 12 min)', () => {
    const { minutes } = plan().reps;
    expect(minutes).toBeGreaterThanOrEqual(6);
    expect(minutes).toBeLessThanOrEqual(12);
  });

  test.each<[Verdict, { count: number; minutes: number }, number]>([
    ['on-target', { count: 5, minutes: 8 }, 2],
    ['at', { count: 4, minutes: 8 }, 2],
    ['too-hard', { count: 3, minutes: 8 }, 3],
    ['drifting', { count: 4, minutes: 6 }, 2],
    ['above', { count: 4, minutes: 8 }, 2],
  ])('after four of eight minutes called %s', (verdict, reps, restMinutes) => {
    expect(plan({ review: called(verdict) })).toMatchObject({ reps, restMinutes });
  });

  test('more reps come before longer ones, and neither without end', () => {
    const many = (count: number, minutes: number) =>
      plan({
        review: {
          ...done(4, ...Array<RepSpec>(count).fill({ minutes, at: 265, lactate: 2.8 })),
          verdict: 'on-target',
        },
      }).reps;
    expect(many(6, 8)).toEqual({ count: 6, minutes: 9 });
    expect(many(4, 12)).toEqual({ count: 4, minutes: 12 });
    expect(many(2, 20)).toEqual({ count: 3, minutes: 12 });
    expect(many(8, 3)).toEqual({ count: 6, minutes: 6 });
  });

  test('reps of two intensities count together, a warm-up does not', () => {
    const mixed = done(null, { at: 180 }, { at: 285 }, { at: 285 }, { at: 300 }, { at: 300 });
    expect(plan({ review: mixed }).reps.count).toBe(4);
  });

  // Common practice: 15 to 20 min only if no more than reasonably uncomfortable, with three or four more in reserve.
  test('long reps need a session that was fine, three more in reserve, and a fair rating', () => {
    const fine = called('on-target');
    const long = (change: Partial<SessionReview>) => plan({ review: { ...fine, ...change } }).longReps;
    expect(long({})).toEqual({ minutes: 15, count: 2 });
    expect(long({ reserve: 2 })).toBeNull();
    expect(long({ reserve: null })).toBeNull();
    expect(long({ verdict: 'above' })).toBeNull();
    expect(long({ scale: null })).toBeNull();
    expect(long({ strain: { ...fine.strain, exertion: 16 } })).toBeNull();
    expect(plan().longReps).toBeNull();
  });

  test('after signs there is rest first, or a doctor', () => {
    expect(plan({ review: called('too-hard') }).when).toBe('rest');
    expect(plan({ review: called('doctor') }).when).toBe('doctor');
    expect(plan({ review: called('above') }).when).toBe('ready');
  });
});

describe('readings that mean ease or stop', () => {
  test('they are the review read backwards: at them lactate alone says as likely as not, and clearly above', () => {
    const { readings, reps } = plan();
    expect(readings.stop).toBeGreaterThan(readings.ease);
    const chance = (lactate: number) =>
      done(null, ...Array<RepSpec>(2).fill({ minutes: reps.minutes, lactate })).readings[1]!.evidence
        .lactate!;
    // Contamination, in the review alone, makes it a little milder; the Monte Carlo error of each is 0.011 at most.
    expect(Math.abs(chance(readings.ease) - 0.5)).toBeLessThan(0.08);
    expect(Math.abs(chance(readings.stop) - 0.8)).toBeLessThan(0.08);
  });

  test('they lie in the range that elite runners keep to: 2 to 4.5 mmol/L (Casado 2023, abstract)', () => {
    const { ease, stop } = plan().readings;
    expect(ease).toBeGreaterThan(2);
    expect(stop).toBeLessThan(4.5);
  });
});
