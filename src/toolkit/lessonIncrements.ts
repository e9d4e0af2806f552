import { withUnit } from '../base/format.ts';
import { linesChart } from '../charts/linesChart.ts';
import type { KnownAthlete } from '../physiology/lesson/lessonAthletes.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { StepProtocol } from '../physiology/training/simulatedAthleteTests.ts';
import { type ChartView, type TableView, table } from '../view/view.ts';
import type { Display } from './display.ts';
import { A_MODEL, answerOn, exactly, simulateTest, someOf } from './lessonTest.ts';

interface Increments {
  protocol: StepProtocol;
  methods: readonly string[];
  increments: readonly number[];
}

/** Answers of one method by the increment of the test; null where it gives none. */
interface Line {
  name: string;
  answers: readonly { increment: number; intensity: number | null }[];
}

/** Answers of some methods on tests of one athlete that differ in their increment alone. */
export function showIncrements(
  athlete: KnownAthlete,
  { protocol, methods, increments }: Increments,
): ChartView {
  const tests = someOf(increments, 'increments', '[20, 30, 40]').map((increment) =>
    simulateTest(athlete, { ...protocol, increment }),
  );
  const { display } = tests[0]!;
  const lines = someOf(methods, 'methods', "['first-rise', 'dmax']").map(
    (id): Line => ({
      name: methodById(id).name,
      answers: tests.map(({ readings, protocol: { increment } }) => ({
        increment,
        intensity: answerOn(readings, id)?.intensity ?? null,
      })),
    }),
  );
  const all = lines.flatMap(intensities);
  const { axis, unit } = display;
  return linesChart({
    foot: { label: `Increment, ${unit}` },
    yLabel: `Answer, ${unit}`,
    yLow: Math.min(...all) - (axis === 'power' ? 10 : 0.5),
    dots: true,
    lines: lines.map(({ name, answers }) => {
      const given = answers.filter(({ intensity }) => intensity !== null);
      return {
        name,
        x: given.map(({ increment }) => increment),
        y: given.map(({ intensity }) => intensity!),
      };
    }),
    title: 'Answers by the increment of the test',
    summary: `${A_MODEL} ${lines.map((line) => spanWords(line, display)).join('; ')}.`,
    data: incrementTable(lines, display),
  });
}

const intensities = ({ answers }: Line): number[] =>
  answers.flatMap(({ intensity }) => (intensity === null ? [] : [intensity]));

function spanWords(line: Line, display: Display): string {
  const given = intensities(line);
  if (given.length < 2) return `${line.name} gives no answer on most of them`;
  const [low, high] = [Math.min(...given), Math.max(...given)].map((at) => exactly(at, display));
  return `${line.name} lies between ${low} and ${withUnit(high!, display.unit)}`;
}

function incrementTable(lines: readonly Line[], display: Display): TableView {
  const { unit } = display;
  return table({
    caption: 'Answers by the increment of the test',
    columns: [
      { key: 'increment', heading: 'Increment', unit, align: 'right' },
      ...lines.map(({ name }) => ({ key: name, heading: name, unit, align: 'right' as const })),
    ],
    rows: lines[0]!.answers.map(({ increment }, i) => ({
      increment: String(increment),
      ...Object.fromEntries(
        lines.map(({ name, answers }) => {
          const { intensity } = answers[i]!;
          return [name, intensity === null ? '–' : exactly(intensity, display)];
        }),
      ),
    })),
    note: A_MODEL,
  });
}
