import { linesChart } from '../charts/linesChart.ts';
import { type LactateCourse, lactateCourse } from '../physiology/lesson/lactateCourse.ts';
import type { KnownAthlete } from '../physiology/lesson/lessonAthletes.ts';
import { type Slider, slider } from '../view/controls.ts';
import { type StackView, stack, type TableView, table } from '../view/view.ts';
import { lactateWords, percentWords } from './display.ts';
import { A_MODEL, someOf } from './lessonTest.ts';

interface Session {
  /** Intensities as shares of the maximal lactate steady state. */
  shares: readonly number[];
  reps: number;
  repMinutes: number;
  restMinutes: number;
}

interface Course extends LactateCourse {
  share: number;
  /** Lactate when little has been done yet, mmol/L. */
  early: number;
}

/** A time at which nobody would judge a session yet, min. */
const EARLY = 2;

/** Lactate of one athlete over the same session at several shares of the steady state. */
export function showAbove({ type, steady }: KnownAthlete, session: Session): StackView {
  const { shares, reps, repMinutes, restMinutes } = session;
  const courses = someOf(shares, 'shares', '[0.95, 1.05]').map((share): Course => {
    const course = lactateCourse(type, { intensity: share * steady, reps, repMinutes, restMinutes });
    return { ...course, share, early: course.lactate[course.minute.indexOf(EARLY)] ?? Number.NaN };
  });
  const at = Array.from({ length: reps }, (_, i) => i * (repMinutes + restMinutes));
  const even = shares.indexOf(1);
  return stack(
    linesChart({
      foot: { label: 'Minutes' },
      yLabel: 'Lactate, mmol/L',
      lines: courses.map(({ share, minute, lactate }) => ({
        name: `${percentWords(share)} of the MLSS`,
        x: minute,
        y: lactate,
      })),
      ...(even >= 0 && { strongest: even }),
      spans: { text: 'at work', at: at.map((from) => ({ from, to: from + repMinutes })) },
      title: `${reps} × ${repMinutes} min at ${shares.map((share) => Math.round(100 * share)).join(', ')} % of the MLSS`,
      summary: `${A_MODEL} ${earlyWords(courses)} A line that ends early: the athlete had to stop.`,
    }),
    endsTable(courses, reps),
  );
}

function earlyWords(courses: readonly Course[]): string {
  const early = courses.map((course) => course.early).filter(Number.isFinite);
  if (early.length === 0) return '';
  const [low, high] = [Math.min(...early), Math.max(...early)];
  return `After ${EARLY} min lactate still lies between ${lactateWords(low, 1)} and ${lactateWords(high, 1)}.`;
}

function endsTable(courses: readonly Course[], reps: number): TableView {
  const align = 'right' as const;
  const places = Array.from({ length: reps }, (_, i) => i);
  return table({
    caption: 'Lactate at the end of each rep, mmol/L',
    columns: [
      { key: 'share', heading: 'Of the MLSS', align },
      { key: 'early', heading: `Minute ${EARLY}`, align },
      ...places.map((i) => ({ key: `rep${i}`, heading: `Rep ${i + 1}`, align })),
    ],
    rows: courses.map(({ share, early, ends }) => ({
      share: percentWords(share),
      early: Number.isFinite(early) ? early.toFixed(1) : '–',
      ...Object.fromEntries(places.map((i) => [`rep${i}`, endWords(ends, i)])),
    })),
    note: `${A_MODEL} It clears lactate between reps faster than people do, and is not made for times to exhaustion.`,
  });
}

const endWords = (ends: readonly number[], i: number): string =>
  ends[i]?.toFixed(1) ?? (i === ends.length ? 'stopped' : '–');

/** How long each rep of the simulated session lasts. */
export const repLengthSlider = (value: number): Slider =>
  slider({
    label: 'Each lasts',
    unit: 'min',
    min: 3,
    max: 30,
    step: 1,
    value,
    about: {
      says: 'The longer a rep, the further lactate can drift in it.',
      source: 'common practice: 6 to 12 min',
    },
  });

/** The rest between them. */
export const repRestSlider = (value: number): Slider =>
  slider({
    label: 'Rest between',
    unit: 'min',
    min: 0,
    max: 5,
    step: 0.5,
    value,
    about: {
      says: 'Lactate falls in the rest, so a long one hides a drift.',
      source: 'common practice: 1 to 3 min',
    },
  });
