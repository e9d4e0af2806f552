import { formatChange, withUnit } from '../base/format.ts';
import { linesChart } from '../charts/linesChart.ts';
import { LEAST_LACTATE } from '../physiology/lactateDraws.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Readings } from '../physiology/stepTest.ts';
import { type Slider, slider } from '../view/controls.ts';
import { type StackView, stack } from '../view/view.ts';
import { intensityWords } from './display.ts';
import { shiftsChart } from './lessonShifts.ts';
import { A_MODEL, answerOn, type LessonTest } from './lessonTest.ts';

interface Calibration {
  /** By what share the meter reads too high, and by how much besides, mmol/L. */
  gain: number;
  offset: number;
}

/** The readings as a meter shows them that is off in proportion and by an amount. */
function misread(readings: Readings, { gain, offset }: Calibration): Readings {
  const read = (lactate: number) => Math.max(LEAST_LACTATE, (1 + gain) * lactate + offset);
  const { y, restLactate, recovery } = readings;
  return {
    ...readings,
    y: y.map(read),
    restLactate: restLactate === null ? null : read(restLactate),
    recovery: recovery && { ...recovery, lactate: recovery.lactate.map(read) },
  };
}

/** The same test read by an exact meter and by one that is off, and what each method makes of it. */
export function showCalibration(
  test: LessonTest,
  { method, ...calibration }: Calibration & { method: string },
): StackView {
  const { readings, display } = test;
  const wrong = misread(readings, calibration);
  const { name, claim } = methodById(method);
  const answers = [answerOn(readings, method), answerOn(wrong, method)];
  return stack(
    linesChart({
      foot: display.axis,
      yLabel: 'Lactate, mmol/L',
      dots: true,
      strongest: 0,
      lines: [
        { name: 'this meter', x: wrong.x, y: wrong.y },
        { name: 'an exact one', x: readings.x, y: readings.y },
      ],
      marks: answers.flatMap((answer) => (answer ? [{ x: answer.intensity, y: answer.lactate, claim }] : [])),
      marksName: name,
      title: `${name} by an exact meter and by one that is off`,
      summary: `${A_MODEL} ${answersWords(test, name, answers)}`,
    }),
    shiftsChart(test, {
      before: readings,
      after: wrong,
      title: 'What the calibration does to every method',
      what: calibrationWords(calibration),
    }),
  );
}

function answersWords({ display }: LessonTest, name: string, answers: ReturnType<typeof answerOn>[]): string {
  const [exact, wrong] = answers.map((answer) => answer && intensityWords(answer.intensity, display));
  if (!exact || !wrong) return `${name} gives no answer on one of the two.`;
  return exact === wrong ? `${name} finds ${exact} on both.` : `${name} finds ${exact}, and here ${wrong}.`;
}

function calibrationWords({ gain, offset }: Calibration): string {
  const parts = [
    ...(gain === 0 ? [] : [withUnit(formatChange(100 * gain, 0), '%')]),
    ...(offset === 0 ? [] : [withUnit(formatChange(offset, 1), 'mmol/L')]),
  ];
  return parts.length === 0 ? 'The meter is exact.' : `The meter is off by ${parts.join(' and ')}.`;
}

/** An error of calibration in proportion, as what a meter reads too high, in per cent. */
export const proportionalErrorSlider = (value: number): Slider =>
  slider({
    label: 'The meter reads too high by',
    unit: '%',
    min: -30,
    max: 30,
    step: 1,
    value,
    about: {
      says: 'An error in proportion: it moves high readings most.',
      source: 'Mentzoni 2024, Eur J Appl Physiol (abstract): meters are off by −10 % to +42 % on average',
    },
  });

/** The same by a fixed amount. */
export const addedErrorSlider = (value: number): Slider =>
  slider({
    label: 'And by a fixed amount of',
    unit: 'mmol/L',
    min: -0.4,
    max: 0.4,
    step: 0.1,
    value,
    about: {
      says: 'An error that is the same at every lactate, so it counts most where lactate is low.',
      source: 'our rule: up to a few steps of the display',
    },
  });
