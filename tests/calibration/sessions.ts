/**
 * How the session review calls sessions of simulated athletes whose maximal lactate steady state is known.
 * Run: npx tsx tests/calibration/sessions.ts [sessions, usually 500]; it writes sessions.md beside itself.
 */
import { writeFileSync } from 'node:fs';
import path from 'node:path';
import { methodById } from '../../src/physiology/methods/index.ts';
import type { SessionReview } from '../../src/physiology/training/sessionReview.ts';
import { callsOf, manySubjects, SUBJECTS, type Trial, trialReviews } from './simulatedSessions.ts';

const SHARES = [0.9, 0.95, 1, 1.05, 1.1];
const USUAL = 'minimum-equivalent-plus-1.5';
/** Sessions of each athlete among many. */
const EACH = 5;
const sessions = Number(process.argv[2] ?? 500);

type Options = Pick<Trial, 'method' | 'sampled'>;
const percent = (share: number) => (100 * share).toFixed(0);

function row(athlete: string, share: number, reviews: Iterable<SessionReview>): string {
  const { below, at, probably, above, notAssessable } = callsOf(reviews);
  const called = [below, at, probably, above, notAssessable, probably + above].map(percent);
  return `| ${athlete} | ${percent(share)} % | ${called.join(' | ')} |`;
}

const section = (title: string, rows: string[]): string =>
  [
    `## ${title}`,
    '',
    '| athlete | intensity, of the steady state | below | at or just under | probably above | above | not assessable | above or probably above |',
    '|---|---|---|---|---|---|---|---|',
    ...rows,
    '',
  ].join('\n');

const twoAthletes = (options: Options): string[] =>
  (['cyclist', 'runner'] as const).flatMap((athlete) =>
    SHARES.map((share) =>
      row(athlete, share, trialReviews({ ...options, subject: SUBJECTS[athlete], share, sessions })),
    ),
  );

const manyAthletes = (options: Options): string[] =>
  (['cycling', 'running'] as const).flatMap((sport) => {
    const subjects = manySubjects(Math.ceil(sessions / EACH), sport);
    const reviews = (share: number) =>
      subjects.flatMap((subject, seed) => [
        ...trialReviews({ ...options, subject, share, sessions: EACH, seed }),
      ]);
    return SHARES.map((share) => row(`many, ${sport}`, share, reviews(share)));
  });

const named = (method: string) => `Second threshold by ${methodById(method).name}`;

const text = [
  '# The session review against a known steady state',
  '',
  `Made by \`npx tsx tests/calibration/sessions.ts ${sessions}\`. Each row: ${sessions} sessions of a simulated athlete`,
  '(`src/physiology/training/simulatedAthlete.ts`), 4 reps of 8 min with 2 min easy between, sampled at the end of each',
  'rep; each judged by the second threshold of a step test of its own (stages of 4 min). Test and session carry the',
  'errors of a handheld meter, seeded. Nothing but intensity and lactate is known. Figures in per cent.',
  '',
  section(`${named(USUAL)}, every rep sampled (the default of the workbook)`, twoAthletes({ method: USUAL })),
  section(`${named(USUAL)}, reps 2 and 4 sampled`, twoAthletes({ method: USUAL, sampled: [2, 4] })),
  section(`${named('fixed-4.0')}, every rep sampled`, twoAthletes({ method: 'fixed-4.0' })),
  section(
    `Athletes of many kinds, ${EACH} sessions each; ${named(USUAL).toLowerCase()}`,
    manyAthletes({ method: USUAL }),
  ),
  '## What this says, and what not',
  '',
  '- The review judges against the second threshold it is given. A method that puts it below the steady state (the',
  '  default: 9 % in this cyclist, 4 % in this runner) makes sessions at 95 % count as above; one that puts it higher',
  '  lets sessions at 100 % pass. The review cannot see that error of the method.',
  '- Among athletes of many kinds that error differs from one to the next, so that the calls at 95 % are divided.',
  '- Within 5 % of the steady state it is a matter of degree: there the calls are divided.',
  '- The simulated cyclist has to stop in the second rep at 110 %. With one reading left that came late enough the',
  '  review says no more than probably above.',
  '- The athletes are simulated by the equations that the level and the time course were chosen on, and clear lactate',
  '  between reps faster than people do. This shows that the rules hang together, not how well they do on people.',
  '',
].join('\n');
writeFileSync(path.join(import.meta.dirname, 'sessions.md'), text);
