import { formatPace } from '../base/format.ts';
import { curveChart } from '../charts/curveChart.ts';
import { fitCurve } from '../physiology/curves/index.ts';
import { usableReadings } from '../physiology/readings.ts';
import type { Readings, StepTest } from '../physiology/stepTest.ts';
import { type StackView, stack } from '../view/view.ts';
import { type Display, displayOf, lactateWords } from './display.ts';
import { shiftsChart } from './lessonShifts.ts';
import { A_MODEL, type LessonTest } from './lessonTest.ts';
import { readingHandles } from './readingHandles.ts';
import { curvePoints } from './showCurve.ts';
import { readStepTest, stageGrid } from './stages.ts';
import type { StartedGrid } from './whoseData.ts';

/** The stages of a simulated test as a table whose lactates can be changed, read to 0.1 mmol/L. */
export function simulatedStages({ test }: LessonTest): StartedGrid {
  const heading = test.axis === 'power' ? 'power (W)' : 'speed (km/h)';
  const rows = test.stages.map(
    ({ intensity, minutes, lactate }, i) =>
      `${i + 1},${formatPace(minutes!)},${Number(intensity.toFixed(2))},${lactate!.toFixed(1)}`,
  );
  const csv = [`stage,duration (min),${heading},lactate (mmol/L)`, ...rows].join('\n');
  return stageGrid({ sport: test.sport, label: 'Readings of the simulated test', csv });
}

interface Read {
  test: StepTest;
  readings: Readings;
  display: Display;
}

function readTable(value: StartedGrid['value'], { sport, stageMinutes }: StepTest): Read {
  const test = readStepTest(value, { sport, stageMinutes });
  const readings = usableReadings(test, { toExhaustion: true });
  return { test, readings, display: displayOf(test, readings) };
}

/** The simulated readings to drag, and how far each method goes along. */
export function showOneReading(lesson: LessonTest, stages: StartedGrid): StackView {
  const [before, now] = [stages.start, stages.value].map((value) => readTable(value, lesson.test));
  const { readings, display } = now!;
  const curve = fitCurve(readings, { model: 'cubic' });
  return stack(
    curveChart({
      axis: display.axis,
      x: readings.x,
      y: readings.y,
      readingSd: null,
      curves: curve.status === 'ok' ? [curvePoints(curve)] : [],
      title: 'Drag one reading up or down',
      summary: `${A_MODEL} The line is a cubic through all readings, the one that Dmax reads. ${changedWords(before!.readings, readings)}`,
      handles: readingHandles(stages, now!),
    }),
    shiftsChart(lesson, {
      before: before!.readings,
      after: readings,
      title: 'How far every method goes along',
      what: changedWords(before!.readings, readings),
    }),
  );
}

function changedWords(before: Readings, now: Readings): string {
  const changed = Array.from(now.y, (lactate, i) => ({ lactate, was: before.y[i] ?? lactate })).filter(
    ({ lactate, was }) => lactate !== was,
  );
  if (changed.length === 0) return 'All readings are as simulated, to 0.1 mmol/L.';
  return `${changed.length === 1 ? 'One reading is' : `${changed.length} readings are`} changed: ${changed
    .map(({ lactate, was }) => `${lactateWords(was, 1)} became ${lactateWords(lactate, 1)}`)
    .join('; ')}.`;
}
