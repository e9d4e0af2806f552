import { type ReadingTone, type SessionChartData, sessionChart } from '../charts/sessionChart.ts';
import { type Session, workBefore } from '../physiology/training/session.ts';
import { callOf, type ReadingReview, type SessionReview } from '../physiology/training/sessionReview.ts';
import {
  type ChartView,
  type FiguresView,
  figures,
  folded,
  inShort,
  type NoticeView,
  notice,
  prose,
  type StackView,
  stack,
  type TableView,
  table,
} from '../view/view.ts';
import { type Display, intensityWords, lactateWords, percentWords } from './display.ts';
import type { Answered } from './methodRows.ts';
import { disagreementWords, doubtWords, headingFor, LIMITS_OF_REVIEW, verdictCard } from './sessionWords.ts';

interface ShowSession {
  display: Display;
  /** The second threshold that the session is judged by. */
  second: Answered | null;
}

/** The verdict on a session first, then its picture, then what it rests on, folded; a word when there is none. */
export function showSession(
  session: Session | null,
  review: SessionReview | null,
  options: ShowSession,
): StackView | NoticeView {
  if (session === null || review === null)
    return notice('note', 'No session yet', 'Enter the reps of a session in the table above.');
  const { tone, title, body } = verdictCard(review, options);
  return stack(
    inShort(notice(tone, title, body)),
    review.disagreement
      ? notice('caution', 'Intensity and lactate disagree', disagreementWords(review))
      : null,
    review.doubtful.length > 0 ? notice('caution', 'A reading stands out', doubtWords(review)) : null,
    sessionPicture(session, review, options),
    evidenceFigures(review, options),
    review.readings.length > 0 ? folded('Each reading', readingTable(review)) : null,
    folded(
      'What this review cannot tell',
      prose`${LIMITS_OF_REVIEW.map((point) => `- ${point}`).join('\n')}`,
    ),
  );
}

/** Chance of having been above, by each kind of evidence and together. */
function evidenceFigures(review: SessionReview, { display, second }: ShowSession): FiguresView {
  const { evidence, chance, intensity, basis, held, usable } = review;
  const level = headingFor(review);
  const value = (share: number | null) => (share === null ? 'not assessable' : percentWords(share));
  return figures(
    {
      label: `Above, by ${basis ?? 'intensity'}`,
      value: value(evidence.intensity),
      note:
        intensity === null || second === null || review.reversed
          ? ''
          : `${intensityWords(intensity, display)} against ${intensityWords(second.intensity, display, { sd: second.sd })}`,
    },
    {
      label: 'Above, by lactate',
      value: value(evidence.lactate),
      note:
        level === null
          ? 'needs readings after minute 4 of a rep'
          : `heading for ${level.toFixed(1)}; at the threshold ${held.low.toFixed(1)}–${lactateWords(held.high, 1)} (${usable} ${usable === 1 ? 'reading' : 'readings'})`,
    },
    {
      label: 'Above, by drift',
      value: value(evidence.drift),
      note:
        evidence.drift === null
          ? 'needs three readings at the same minute of later reps'
          : evidence.drift > 0.5
            ? 'lactate climbs from rep to rep'
            : 'not counted: no drift proves nothing',
    },
    {
      label: 'Above, together',
      value: value(chance),
      note: chance === null ? '' : callOf(chance),
      tone: 'second',
    },
  );
}

function toneOf({ early, chance }: ReadingReview): ReadingTone {
  if (early) return 'early';
  return chance !== null && chance > 0.5 ? 'above' : 'under';
}

function sessionPicture(session: Session, review: SessionReview, { display }: ShowSession): ChartView {
  const before = workBefore(session.reps);
  const data: SessionChartData = {
    reps: session.reps.map(({ minutes, intensity, number }, i) => ({
      from: before[i]!,
      to: before[i]! + minutes,
      label: intensity === null ? `rep ${number}` : intensityWords(intensity, display),
    })),
    readings: review.readings.map((reading) => ({
      work: reading.work,
      lactate: reading.lactate,
      tone: toneOf(reading),
    })),
    course: review.course,
    title: 'Lactate over the work done',
    summary: summaryOf(review),
  };
  return sessionChart(data);
}

function summaryOf({ readings, held }: SessionReview): string {
  const above = readings.filter((reading) => toneOf(reading) === 'above').length;
  const told = readings.filter((reading) => !reading.early).length;
  const count =
    told === 0 ? 'No reading came late enough to tell' : `${above} of ${told} readings are called above`;
  return (
    `Shaded: where the same reps done right at the second threshold would lie, eight times out of ten; they go to about ` +
    `${lactateWords(held.median, 1)} when held. ${count}${above > 0 ? ', by intensity and drift as well, so that one may lie in the shade' : ''}.`
  );
}

function readingTable({ readings }: SessionReview): TableView {
  const share = (value: number | null) => (value === null ? '–' : percentWords(value));
  return table({
    caption: 'What each reading says',
    columns: [
      { key: 'rep', heading: 'Rep', align: 'right' },
      { key: 'minute', heading: 'Minute', align: 'right' },
      { key: 'lactate', heading: 'Lactate', unit: 'mmol/L', align: 'right' },
      { key: 'level', heading: 'Heading for', unit: 'mmol/L', align: 'right' },
      { key: 'intensity', heading: 'Above by intensity', align: 'right' },
      { key: 'byLactate', heading: 'By lactate', align: 'right' },
      { key: 'together', heading: 'Together', align: 'right' },
      { key: 'call', heading: 'Called' },
    ],
    rows: readings.map((reading) => ({
      rep: String(reading.rep),
      minute: String(Number(reading.minute.toFixed(1))),
      lactate: reading.lactate.toFixed(1),
      level:
        reading.level === null
          ? '–'
          : `${reading.level.median.toFixed(1)} (${reading.level.low.toFixed(1)}–${reading.level.high.toFixed(1)})`,
      intensity: share(reading.evidence.intensity),
      byLactate: share(reading.evidence.lactate),
      together: share(reading.chance),
      call: reading.chance === null ? 'too early to tell' : callOf(reading.chance),
      tone: reading.early ? ('muted' as const) : null,
    })),
    note:
      'Heading for: where lactate would settle at this intensity, with the range of eight draws in ten. A step test shows ' +
      'far less lactate at the threshold than intensity that is held, so readings are compared with the held level.',
  });
}
