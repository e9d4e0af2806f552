import { describe, expect, test } from 'vitest';
import { lactateCourse } from '../../../src/physiology/lesson/lactateCourse.ts';
import {
  constantLoad,
  steadyStateOf,
  TRAINED_CYCLIST,
} from '../../../src/physiology/training/simulatedAthlete.ts';
import { expectDigits } from '../../digits.ts';
import scipy from '../../references/simulator/lactate.json' with { type: 'json' };
import { simulatedSession } from '../training/simulatedSession.ts';

const { intensity: steady } = steadyStateOf(TRAINED_CYCLIST);

describe('the course of lactate over a session', () => {
  // Outside reference: 30 min at shares of the steady state, integrated by scipy (tests/references/simulator).
  test.each(scipy.cyclist.bouts.filter(({ share }) => share <= 1))(
    'one long effort at $share of the steady state',
    ({ share, lactate }) => {
      const course = lactateCourse(TRAINED_CYCLIST, {
        intensity: share * scipy.cyclist.steadyState,
        reps: 1,
        repMinutes: 30,
        restMinutes: 0,
      });
      const at = scipy.cyclist.minutes.map((minute) => course.lactate[course.minute.indexOf(minute)]!);
      expectDigits(at, lactate, { atLeast: 5 });
    },
  );

  test('reps without rest between are one long effort', () => {
    const plan = { intensity: 0.95 * steady, reps: 3, repMinutes: 10, restMinutes: 0 };
    const course = lactateCourse(TRAINED_CYCLIST, plan);
    expectDigits(course.ends, constantLoad(TRAINED_CYCLIST, plan.intensity, [10, 20, 30]), { atLeast: 12 });
    expect(course.minute.at(-1)).toBe(30);
    expect(course.minute).toHaveLength(61);
  });

  test('ends of reps with rest are those of a session', () => {
    const plan = { intensity: steady, reps: 4, repMinutes: 7.5, restMinutes: 2 };
    const session = simulatedSession(TRAINED_CYCLIST, plan);
    expectDigits(
      lactateCourse(TRAINED_CYCLIST, plan).ends,
      session.map(({ lactate }) => lactate),
      { atLeast: 12 },
    );
  });

  test('ends where the athlete has to stop, with the reps that were finished', () => {
    const course = lactateCourse(TRAINED_CYCLIST, {
      intensity: 1.15 * steady,
      reps: 6,
      repMinutes: 3,
      restMinutes: 1,
    });
    expect(course.ends.length).toBeLessThan(6);
    expect(course.minute.at(-1)).toBeLessThan(6 * 3 + 5);
    expect(course.minute).toHaveLength(course.lactate.length);
  });

  test('a plan that cannot be done is refused with a sentence', () => {
    const plan = { intensity: 200, reps: 0, repMinutes: 5, restMinutes: 1 };
    expect(() => lactateCourse(TRAINED_CYCLIST, plan)).toThrow(
      /needs an intensity, reps and minutes above 0/,
    );
    expect(() => lactateCourse(TRAINED_CYCLIST, { ...plan, reps: 2, restMinutes: -1 })).toThrow(
      /a rest of 0/,
    );
  });
});
