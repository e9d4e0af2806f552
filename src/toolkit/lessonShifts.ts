import { truthChart } from '../charts/truthChart.ts';
import { type Estimate, estimateReadings } from '../physiology/estimate.ts';
import { LESSON_METHODS } from '../physiology/lesson/againstTruth.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type ChartView, type TableView, table } from '../view/view.ts';
import type { Display } from './display.ts';
import { A_MODEL, exactly, type LessonTest, truthLines } from './lessonTest.ts';
import { type MovedFigure, movedBy, movedRow, movedWords, sayMoved } from './movedFigures.ts';

/** Readings before and after something was done to them, and what it was. */
interface Changed {
  before: Readings;
  after: Readings;
  title: string;
  /** What was done, in a sentence. */
  what: string;
}

/** How far every method goes along when readings change: a dot where it lands, a bar from where it was. */
export function shiftsChart(
  { athlete, display }: LessonTest,
  { before, after, title, what }: Changed,
): ChartView {
  const methods = LESSON_METHODS.map(({ id }) => id);
  const answers = estimateReadings(after, { methods }).map(answerOf);
  const moved = estimateReadings(before, { methods }).map((was, i): MovedFigure => {
    return { method: was.method, was: answerOf(was), now: answers[i]! };
  });
  return truthChart({
    axis: display.axis,
    truths: truthLines(athlete, display),
    rows: moved.flatMap((figure) => movedRow(figure, display)),
    title,
    summary: `${A_MODEL} ${what} ${sayMoved(moved, display)}`,
    data: shiftTable(moved, display, title),
  });
}

const answerOf = (estimate: Estimate): number | null => (estimate.refused ? null : estimate.intensity);

function shiftTable(moved: readonly MovedFigure[], display: Display, caption: string): TableView {
  const { unit } = display;
  const words = (answer: number | null) => (answer === null ? 'no answer' : exactly(answer, display));
  return table({
    caption,
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'claim', heading: 'Claims' },
      { key: 'was', heading: 'Before', unit, align: 'right' },
      { key: 'now', heading: 'Now', unit, align: 'right' },
      { key: 'by', heading: 'Moved by', align: 'right' },
    ],
    rows: moved
      .filter(({ was, now }) => was !== null || now !== null)
      .map((figure) => {
        const { name, claim } = methodById(figure.method);
        const by = movedBy(figure);
        return {
          method: name,
          claim,
          was: words(figure.was),
          now: words(figure.now),
          by: by === null ? '–' : movedWords(by, display),
        };
      }),
    note: A_MODEL,
  });
}
