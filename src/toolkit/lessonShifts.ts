import { formatChange, withUnit } from '../base/format.ts';
import { type TruthRow, truthChart } from '../charts/truthChart.ts';
import { type Estimate, estimateReadings } from '../physiology/estimate.ts';
import { LESSON_METHODS } from '../physiology/lesson/againstTruth.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type ChartView, type TableView, table } from '../view/view.ts';
import type { Display } from './display.ts';
import { A_MODEL, exactly, type LessonTest, truthLines } from './lessonTest.ts';

/** Readings before and after something was done to them, and what it was. */
interface Changed {
  before: Readings;
  after: Readings;
  title: string;
  /** What was done, in a sentence. */
  what: string;
}

interface Shift {
  was: Estimate;
  now: Estimate;
  /** W or km/h; null where one of the two is missing. */
  by: number | null;
}

/** How far every method goes along when readings change: a dot where it lands, a bar from where it was. */
export function shiftsChart(
  { athlete, display }: LessonTest,
  { before, after, title, what }: Changed,
): ChartView {
  const methods = LESSON_METHODS.map(({ id }) => id);
  const answers = estimateReadings(after, { methods });
  const shifts = estimateReadings(before, { methods }).map((was, i): Shift => {
    const now = answers[i]!;
    return { was, now, by: was.refused || now.refused ? null : now.intensity - was.intensity };
  });
  return truthChart({
    axis: display.axis,
    truths: truthLines(athlete, display),
    rows: shifts.flatMap((shift) => shiftRow(shift, display)),
    title,
    summary: `${A_MODEL} ${what} ${shiftsWords(shifts, display)}`,
    data: shiftTable(shifts, display, title),
  });
}

const isStill = (by: number, { axis }: Display) => Math.abs(by) < (axis === 'power' ? 0.05 : 0.005);

function byWords(by: number, display: Display): string {
  if (isStill(by, display)) return 'stays';
  return withUnit(formatChange(by, display.axis === 'power' ? 1 : 2), display.unit);
}

function shiftRow({ was, now, by }: Shift, display: Display): TruthRow[] {
  if (now.refused) return [];
  return [
    {
      name: methodById(now.method).name,
      claim: now.claim,
      value: by === null ? 'new' : byWords(by, display),
      range: '',
      at: now.intensity,
      interval: was.refused
        ? null
        : [Math.min(was.intensity, now.intensity), Math.max(was.intensity, now.intensity)],
    },
  ];
}

function shiftsWords(shifts: readonly Shift[], display: Display): string {
  const moved = shifts
    .filter(({ by }) => by !== null && !isStill(by, display))
    .toSorted((a, b) => Math.abs(b.by!) - Math.abs(a.by!));
  const both = shifts.filter(({ by }) => by !== null).length;
  const lost = shifts.filter(({ was, now }) => !was.refused && now.refused).map(nameOf);
  const silent = lost.length === 0 ? '' : ` No answer any more: ${lost.join(', ')}.`;
  if (moved.length === 0) return `No method moves.${silent}`;
  const [most] = moved;
  return `${moved.length} of ${both} methods move, ${nameOf(most!)} most: ${byWords(most!.by!, display)}.${silent}`;
}

const nameOf = ({ now }: Shift) => methodById(now.method).name;

function shiftTable(shifts: readonly Shift[], display: Display, caption: string): TableView {
  const { unit } = display;
  const words = (estimate: Estimate) =>
    estimate.refused ? 'no answer' : exactly(estimate.intensity, display);
  return table({
    caption,
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'claim', heading: 'Claims' },
      { key: 'was', heading: 'Before', unit, align: 'right' },
      { key: 'now', heading: 'Now', unit, align: 'right' },
      { key: 'by', heading: 'Moved by', align: 'right' },
    ],
    rows: shifts
      .filter(({ was, now }) => !was.refused || !now.refused)
      .map((shift) => ({
        method: nameOf(shift),
        claim: shift.now.claim,
        was: words(shift.was),
        now: words(shift.now),
        by: shift.by === null ? '–' : byWords(shift.by, display),
      })),
    note: A_MODEL,
  });
}
