import { describe, expect, test } from 'vitest';
import { HANDHELD } from '../../../src/physiology/errorModel.ts';
import { MEDICAL_SIGNS } from '../../../src/physiology/training/session.ts';
import { decide, type SessionFacts } from '../../../src/physiology/training/sessionDecision.ts';
import { reviewSession } from '../../../src/physiology/training/sessionReview.ts';
import { strainOf } from '../../../src/physiology/training/sessionStrain.ts';
import { CONTEXT, sessionOf, THRESHOLD } from './sessions.ts';

const CALM = { heartRateRise: null, heartRateExcess: null, exertion: null, exertionRise: null };
type Given = Partial<Omit<SessionFacts, 'strain'>> & { strain?: Partial<SessionFacts['strain']> };
const facts = (given: Given): SessionFacts => ({
  signs: [],
  chance: 0.3,
  assessable: true,
  scale: '6-20',
  reserve: null,
  ...given,
  strain: { ...CALM, ...given.strain },
});
const verdict = (given: Given) => decide(facts(given)).verdict;

// The rows and their limits are our rule, on common practice; the order is what is tested: the first that holds.
describe('the decision table', () => {
  test.each(MEDICAL_SIGNS)('%s goes before everything, and there is no next intensity', (sign) => {
    expect(decide(facts({ signs: ['nausea', sign], chance: 0.05 }))).toEqual({
      verdict: 'doctor',
      change: null,
    });
  });

  test.each(['nausea', 'tingling', 'loss of form', 'breathing out of control', 'could not finish'] as const)(
    '%s means too hard, however low lactate is',
    (sign) => {
      expect(decide(facts({ signs: [sign], chance: 0.03 }))).toEqual({
        verdict: 'too-hard',
        change: [-0.05, -0.05],
      });
    },
  );

  test.each([
    [0.81, 'above'],
    [0.8, 'probably-above'],
    [0.51, 'probably-above'],
    [0.5, 'at'],
    [0.2, 'at'],
    [0.19, 'under'],
  ])('a chance of %f is called %s', (chance, called) => {
    expect(verdict({ chance })).toBe(called);
  });

  test('drifting heart rate or exertion counts, also at a low chance', () => {
    expect(verdict({ chance: 0.3, strain: { heartRateRise: { bpm: 9, share: 0.055 } } })).toBe('drifting');
    expect(verdict({ chance: 0.3, strain: { heartRateRise: { bpm: 8, share: 0.05 } } })).toBe('at');
    expect(verdict({ chance: 0.1, strain: { exertion: 15, exertionRise: 3 } })).toBe('drifting');
    expect(verdict({ chance: 0.1, scale: 'CR10', strain: { exertion: 5, exertionRise: 2 } })).toBe(
      'drifting',
    );
  });

  test('on target needs the feeling and three more reps in reserve', () => {
    expect(verdict({ strain: { exertion: 14 }, reserve: 3 })).toBe('on-target');
    expect(verdict({ strain: { exertion: 14 }, reserve: 2 })).toBe('at');
    expect(verdict({ strain: { exertion: 14 } })).toBe('at');
    expect(verdict({ strain: { exertion: 17 }, reserve: 4 })).toBe('mismatch');
    expect(verdict({ scale: 'CR10', strain: { exertion: 5 }, reserve: 4 })).toBe('on-target');
  });

  test('below by lactate: easy by feel may go up, hard by feel is a mismatch', () => {
    expect(decide(facts({ chance: 0.1, strain: { exertion: 12 } }))).toEqual({
      verdict: 'below',
      change: [0.01, 0.02],
    });
    expect(verdict({ chance: 0.1, strain: { exertion: 14 } })).toBe('under');
    expect(verdict({ chance: 0.1, strain: { exertion: 16 } })).toBe('mismatch');
    expect(verdict({ chance: 0.1, strain: { exertion: 11, heartRateExcess: 9 } })).toBe('mismatch');
  });

  test('too few readings: never clearly above nor below', () => {
    expect(verdict({ assessable: false, chance: 0.96 })).toBe('probably-above');
    expect(verdict({ assessable: false, chance: 0.05, strain: { exertion: 11 } })).toBe('not-assessable');
    expect(verdict({ assessable: false, chance: null })).toBe('not-assessable');
  });
});

describe('strain', () => {
  const rates = { x: [200, 300], bpm: [140, 170] };
  test('heart rate from the first to the last rep, at the same minute', () => {
    const { reps } = sessionOf(
      { heartRate: 160, rpe: 13 },
      { heartRate: 164, rpe: 14 },
      { heartRate: 169, rpe: 15 },
    );
    expect(strainOf(reps, rates)).toEqual({
      heartRateRise: { bpm: 9, share: 9 / 160 },
      // 164.33 against 164 bpm at 280 W.
      heartRateExcess: expect.closeTo(0.333, 3),
      exertion: 15,
      exertionRise: 2,
    });
    const other = sessionOf({ heartRate: 160, minute: 4 }, { heartRate: 170, minute: 8 });
    expect(strainOf(other.reps, rates).heartRateRise).toBeNull();
    expect(strainOf(sessionOf({ heartRate: 160 }).reps, rates).heartRateRise).toBeNull();
  });

  test('a sign in any rep overrides the readings of the session', () => {
    const session = sessionOf({ lactate: 1.5 }, { lactate: 1.6, signs: ['tingling'] });
    expect(reviewSession(session, CONTEXT, THRESHOLD, { error: HANDHELD }).verdict).toBe('too-hard');
    session.reps[0]!.signs = ['chest pain'];
    expect(reviewSession(session, CONTEXT, THRESHOLD, { error: HANDHELD })).toMatchObject({
      verdict: 'doctor',
      signs: ['chest pain', 'tingling'],
    });
  });
});
