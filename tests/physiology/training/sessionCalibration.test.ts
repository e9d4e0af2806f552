import { readFileSync } from 'node:fs';
import path from 'node:path';
import { describe, expect, test } from 'vitest';
import { callsOf, trialReviews } from '../../calibration/simulatedSessions.ts';

const METHOD = 'minimum-equivalent-plus-1.5';
/** A smaller run of tests/calibration/sessions.ts. */
const SESSIONS = 80;

// Outside reference: simulated athletes whose maximal lactate steady state is known; bounds set before the run.
describe.each(['cyclist', 'runner'] as const)(
  'sessions of the simulated %s under a handheld meter',
  (athlete) => {
    const above = (share: number) => {
      const calls = callsOf(trialReviews({ athlete, share, method: METHOD, sessions: SESSIONS, draws: 300 }));
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

test('the committed table of 500 sessions each keeps the same bounds', () => {
  const table = readFileSync(path.resolve(import.meta.dirname, '../../calibration/sessions.md'), 'utf8');
  const first = table.split('## ')[1]!;
  const calls = (percent: number) =>
    [...first.matchAll(/^\| (?:cyclist|runner) \| (\d+) % .*\| (\d+) \|$/gm)]
      .filter(([, share]) => Number(share) === percent)
      .map(([, , called]) => Number(called));
  expect(table).toContain('npx tsx tests/calibration/sessions.ts 500');
  expect(calls(110)).toHaveLength(2);
  for (const called of calls(110)) expect(called).toBeGreaterThanOrEqual(90);
  for (const called of calls(90)) expect(called).toBeLessThanOrEqual(10);
});
