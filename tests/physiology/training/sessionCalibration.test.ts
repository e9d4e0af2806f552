import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { callsOf, SUBJECTS, trialReviews } from '../../calibration/simulatedSessions.ts';

const METHOD = 'minimum-equivalent-plus-1.5';
/** A smaller run of tests/calibration/sessions.ts. */
const SESSIONS = 80;

// Outside reference: simulated athletes whose maximal lactate steady state is known; bounds set before the run.
describe.each(['cyclist', 'runner'] as const)(
  'sessions of the simulated %s under a handheld meter',
  (athlete) => {
    const above = (share: number) => {
      const calls = callsOf(
        trialReviews({ subject: SUBJECTS[athlete], share, method: METHOD, sessions: SESSIONS, draws: 300 }),
      );
      return calls.above + calls.probably;
    };

    test('at 110 % of the steady state at least 90 % are called above or probably above', () => {
      expect(above(1.1)).toBeGreaterThanOrEqual(0.9);
    });

    test('at 90 % at most 10 % are', () => {
      expect(above(0.9)).toBeLessThanOrEqual(0.1);
    });
  },
);

describe('the committed table of 500 sessions each', () => {
  const table = readFileSync(path.resolve(import.meta.dirname, '../../calibration/sessions.md'), 'utf8');

  test.each(['Second threshold by Minimum equivalent + 1.5, every rep', 'Athletes of many kinds'])(
    'keeps the same bounds: %s',
    (title) => {
      const section = table.split('## ').find((part) => part.startsWith(title))!;
      const calls = (percent: number) =>
        [...section.matchAll(/^\| [\w, ]+ \| (\d+) % .*\| (\d+) \|$/gm)]
          .filter(([, share]) => Number(share) === percent)
          .map(([, , called]) => Number(called));
      expect(calls(110)).toHaveLength(2);
      for (const called of calls(110)) expect(called).toBeGreaterThanOrEqual(90);
      for (const called of calls(90)) expect(called).toBeLessThanOrEqual(10);
    },
  );

  test('says how it was made', () => {
    expect(table).toContain('npx tsx tests/calibration/sessions.ts 500');
  });
});
