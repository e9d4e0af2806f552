import { linesChart } from '../charts/linesChart.ts';
import { Random } from '../numerics/random.ts';
import type { ErrorModel } from '../physiology/errorModel.ts';
import { SimulatedReadings } from '../physiology/simulatedReadings.ts';
import { type ChartView, type TableView, table } from '../view/view.ts';
import { intensityWords, lactateWords } from './display.ts';
import { A_MODEL, exactly, type LessonTest, truthLine } from './lessonTest.ts';

interface RepeatSettings {
  error: ErrorModel;
  seed?: number;
  /** How often the test is repeated. */
  repeats?: number;
}

/** The readings of a simulated test without error, and as a meter would show them if the test were repeated. */
export function showRepeatsOf(test: LessonTest, { error, seed = 1, repeats = 3 }: RepeatSettings): ChartView {
  const { athlete, readings, display } = test;
  const { x, y } = readings;
  const simulated = new SimulatedReadings(readings, error, new Random(seed));
  const drawn = Array.from({ length: repeats }, (_, i) => {
    simulated.next();
    return { name: `repeat ${i + 1}`, x, y: simulated.readings.y.slice() };
  });
  const lines = [{ name: 'without error', x, y }, ...drawn];
  return linesChart({
    foot: display.axis,
    yLabel: 'Lactate, mmol/L',
    dots: true,
    strongest: 0,
    lines,
    upright: truthLine('LT2', athlete, display),
    title: 'The readings of this test',
    summary:
      `${A_MODEL} Without error lactate goes from ${lactateWords(y[0]!, 1)} at ${intensityWords(x[0]!, display)} to ${lactateWords(y.at(-1)!, 1)} at ${intensityWords(x.at(-1)!, display)}. ${readings.notes.join(' ')}`.trim(),
    data: readingsTable(lines, test),
  });
}

function readingsTable(
  lines: readonly { name: string; y: Float64Array }[],
  { readings, display }: LessonTest,
): TableView {
  return table({
    caption: 'The readings of this test, mmol/L',
    columns: [
      { key: 'at', heading: 'Intensity', unit: display.unit, align: 'right' },
      ...lines.map(({ name }) => ({ key: name, heading: name, align: 'right' as const })),
    ],
    rows: Array.from(readings.x, (x, i) => ({
      at: exactly(x, display),
      ...Object.fromEntries(
        lines.map(({ name, y }) => [name, y[i]!.toFixed(name === lines[0]!.name ? 2 : 1)]),
      ),
    })),
    note: A_MODEL,
  });
}
