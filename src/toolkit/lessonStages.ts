import { linesChart } from '../charts/linesChart.ts';
import type { KnownAthlete } from '../physiology/lesson/lessonAthletes.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { StepProtocol } from '../physiology/training/simulatedAthleteTests.ts';
import { type StackView, stack, table } from '../view/view.ts';
import { intensityWords } from './display.ts';
import {
  A_MODEL,
  type Answer,
  answerOn,
  exactly,
  type LessonTest,
  offWords,
  simulateTest,
  someOf,
  truthLine,
} from './lessonTest.ts';

interface StageLengths {
  protocol: StepProtocol;
  method: string;
  /** The first and the last are compared in words. */
  minutes: readonly number[];
}

interface Found {
  test: LessonTest;
  answer: Answer | null;
}

/** The same athlete tested with stages of several lengths: the curves, and where a method finds its answer on each. */
export function showStageLengths(
  athlete: KnownAthlete,
  { protocol, method, minutes }: StageLengths,
): StackView {
  const found = someOf(minutes, 'minutes', '[1, 3, 5, 8]').map((stageMinutes): Found => {
    const test = simulateTest(athlete, { ...protocol, stageMinutes });
    return { test, answer: answerOn(test.readings, method) };
  });
  const { name, claim } = methodById(method);
  const { display } = found[0]!.test;
  const truth = truthLine(claim, athlete, display);
  return stack(
    linesChart({
      foot: display.axis,
      yLabel: 'Lactate, mmol/L',
      lines: found.map(({ test: { readings, protocol } }) => ({
        name: `${protocol.stageMinutes}-min stages`,
        x: readings.x,
        y: readings.y,
      })),
      upright: truth,
      marks: found.flatMap(({ answer }) =>
        answer ? [{ x: answer.intensity, y: answer.lactate, claim }] : [],
      ),
      marksName: name,
      title: `${name} on stages of ${minutes.join(', ')} min`,
      summary: `${A_MODEL} ${movesWords(found, name)}`,
    }),
    table({
      caption: `${name} by stage length`,
      columns: [
        { key: 'stages', heading: 'Stages', unit: 'min', align: 'right' },
        { key: 'answer', heading: name, unit: display.unit, align: 'right' },
        { key: 'off', heading: 'Off the truth', unit: '%', align: 'right' },
        { key: 'highest', heading: 'Last reading at', unit: display.unit, align: 'right' },
      ],
      rows: found.map(({ test, answer }) => ({
        stages: String(test.protocol.stageMinutes),
        answer: answer ? exactly(answer.intensity, display) : 'no answer',
        off: answer ? offWords(answer.intensity / truth.at - 1) : '–',
        highest: exactly(test.readings.x.at(-1)!, display),
      })),
      note: A_MODEL,
    }),
  );
}

function movesWords(found: readonly Found[], name: string): string {
  const answered = found.flatMap(({ test, answer }) => (answer ? [{ test, answer }] : []));
  const [first, last] = [answered[0], answered.at(-1)];
  if (!first || !last || first === last) return `${name} gives no answer on most of these tests.`;
  const words = ({ test: { display, protocol }, answer }: typeof first) =>
    `${intensityWords(answer.intensity, display)} with ${protocol.stageMinutes}-min stages`;
  return `${name} goes from ${words(first)} to ${words(last)}, the athlete being the same.`;
}
