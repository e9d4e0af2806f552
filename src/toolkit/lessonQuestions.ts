import { formatChange, withUnit } from '../base/format.ts';
import { linesChart } from '../charts/linesChart.ts';
import { type Estimate, estimateReadings } from '../physiology/estimate.ts';
import { LESSON_METHODS } from '../physiology/lesson/againstTruth.ts';
import { lactateCourse } from '../physiology/lesson/lactateCourse.ts';
import { type KnownAthlete, truthFor } from '../physiology/lesson/lessonAthletes.ts';
import { methodById } from '../physiology/methods/index.ts';
import type { Readings } from '../physiology/stepTest.ts';
import type { StepProtocol } from '../physiology/training/simulatedAthleteTests.ts';
import { type ChartView, type StackView, stack, table } from '../view/view.ts';
import { type Display, intensityWords, lactateWords, percentWords } from './display.ts';
import { A_MODEL, exactly, type LessonTest, simulateTest } from './lessonTest.ts';
import { offWords } from './lessonTruth.ts';

type Answered = Extract<Estimate, { intensity: number }>;

/** What one method says of readings; null when it gives no answer. */
function answerOn(readings: Readings, method: string): Answered | null {
  const [estimate] = estimateReadings(readings, { methods: [method] });
  return estimate && !estimate.refused ? estimate : null;
}

const truthText = (test: LessonTest, method: string) => {
  const { claim } = methodById(method);
  const at = truthFor(claim, test.athlete);
  const name = claim === 'LT1' ? 'first threshold' : 'MLSS';
  return { at, text: `${name} ${withUnit(exactly(at, test.display), test.display.unit)}` };
};

/** The same athlete tested with stages of several lengths: the curves, and where a method finds its answer on each. */
export function showStageLengths(
  athlete: KnownAthlete,
  { protocol, method, minutes }: { protocol: StepProtocol; method: string; minutes: readonly number[] },
): StackView {
  const tests = minutes.map((stageMinutes) => simulateTest(athlete, { ...protocol, stageMinutes }));
  const { name, claim } = methodById(method);
  const found = tests.map((test) => ({ test, answer: answerOn(test.readings, method) }));
  const truth = truthText(tests[0]!, method);
  const { display } = tests[0]!;
  return stack(
    linesChart({
      foot: display.axis,
      yLabel: 'Lactate, mmol/L',
      lines: tests.map(({ readings, protocol: { stageMinutes } }) => ({
        name: `${stageMinutes}-min stages`,
        x: readings.x,
        y: readings.y,
      })),
      upright: truth,
      marks: found.flatMap(({ answer }) =>
        answer ? [{ x: answer.intensity, y: answer.lactate, claim }] : [],
      ),
      marksName: name,
      title: `${name} on tests with stages of ${minutes.join(', ')} min`,
      summary: `${A_MODEL} ${movesWords(found, name)}`,
    }),
    table({
      caption: `${name} by stage length. ${A_MODEL}`,
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
    }),
  );
}

function movesWords(found: readonly { test: LessonTest; answer: Answered | null }[], name: string): string {
  const with_ = found.filter(({ answer }) => answer !== null);
  const [first, last] = [with_[0], with_.at(-1)];
  if (!first || !last || first === last) return `${name} gives no answer on most of these tests.`;
  const words = ({ test, answer }: typeof first) =>
    `${intensityWords(answer!.intensity, test.display)} with ${test.protocol.stageMinutes}-min stages`;
  return `${name} goes from ${words(first)} to ${words(last)}, the athlete being the same.`;
}

/** The readings as a meter shows them that is off in proportion and by an amount. */
const misread = (readings: Readings, gain: number, offset: number): Readings => ({
  ...readings,
  y: readings.y.map((lactate) => Math.max(0.05, (1 + gain) * lactate + offset)),
  restLactate: readings.restLactate === null ? null : (1 + gain) * readings.restLactate + offset,
  recovery: readings.recovery && {
    ...readings.recovery,
    lactate: readings.recovery.lactate.map((lactate) => (1 + gain) * lactate + offset),
  },
});

/** The same test read by an exact meter and by one that is off, and what each method makes of it. */
export function showCalibration(
  { readings, display }: LessonTest,
  { gain, offset, method }: { gain: number; offset: number; method: string },
): StackView {
  const wrong = misread(readings, gain, offset);
  const [right, moved] = [answerOn(readings, method), answerOn(wrong, method)];
  const { name, claim } = methodById(method);
  return stack(
    linesChart({
      foot: display.axis,
      yLabel: 'Lactate, mmol/L',
      dots: true,
      lines: [
        { name: 'this meter', x: wrong.x, y: wrong.y },
        { name: 'an exact one', x: readings.x, y: readings.y },
      ],
      marks: [right, moved].flatMap((answer) =>
        answer ? [{ x: answer.intensity, y: answer.lactate, claim }] : [],
      ),
      marksName: name,
      title: `${name} by an exact meter and by one that is off`,
      summary: `${A_MODEL} ${shiftWords(right, moved, { name, display })}`,
    }),
    shiftTable(readings, wrong, { display, caption: 'What the wrong calibration does', by: 'This meter' }),
  );
}

function shiftWords(
  right: Answered | null,
  moved: Answered | null,
  { name, display }: { name: string; display: Display },
): string {
  if (!right || !moved) return `${name} gives no answer on one of the two.`;
  const from = intensityWords(right.intensity, display);
  const shift = moved.intensity - right.intensity;
  const decimals = display.axis === 'power' ? 1 : 2;
  if (Number(shift.toFixed(decimals)) === 0) return `${name} stays at ${from}.`;
  return `${name} moves from ${from} by ${withUnit(formatChange(shift, decimals), display.unit)}.`;
}

/** Every method on the readings as they were and as they are now, those that moved most first. */
export function shiftTable(
  before: Readings,
  after: Readings,
  { display, caption, by }: { display: Display; caption: string; by: string },
) {
  const decimals = display.axis === 'power' ? 1 : 2;
  const methods = LESSON_METHODS.map(({ id }) => id);
  const [was, is] = [before, after].map((readings) => estimateReadings(readings, { methods }));
  const rows = was!.flatMap((one, i) => {
    const now = is![i]!;
    if (one.refused && now.refused) return [];
    const shift = one.refused || now.refused ? null : now.intensity - one.intensity;
    return [{ one, now, shift }];
  });
  const size = ({ shift }: { shift: number | null }) => (shift === null ? Infinity : Math.abs(shift));
  return table({
    caption: `${caption}. ${A_MODEL}`,
    columns: [
      { key: 'method', heading: 'Method' },
      { key: 'claim', heading: 'Claims' },
      { key: 'was', heading: 'Exact', unit: display.unit, align: 'right' },
      { key: 'is', heading: by, unit: display.unit, align: 'right' },
      { key: 'shift', heading: 'Moved by', unit: display.unit, align: 'right' },
    ],
    rows: rows
      .toSorted((a, b) => size(b) - size(a))
      .map(({ one, now, shift }) => ({
        method: methodById(one.method).name,
        claim: one.claim,
        was: one.refused ? 'no answer' : exactly(one.intensity, display),
        is: now.refused ? 'no answer' : exactly(now.intensity, display),
        shift: shift === null ? '–' : formatChange(shift, decimals),
      })),
  });
}

/** Lactate of one athlete over the same session at several shares of the steady state. */
export function showAbove(
  { type, steady }: KnownAthlete,
  plan: { shares: readonly number[]; reps: number; repMinutes: number; restMinutes: number },
): StackView {
  const { shares, reps, repMinutes, restMinutes } = plan;
  const courses = shares.map((share) => ({
    share,
    name: `${percentWords(share)} of the MLSS`,
    ...lactateCourse(type, { intensity: share * steady, reps, repMinutes, restMinutes }),
  }));
  const spans = Array.from({ length: reps }, (_, i) => {
    const from = i * (repMinutes + restMinutes);
    return { from, to: from + repMinutes };
  });
  const early = courses.map((course) => course.lactate[Math.min(6, course.lactate.length - 1)]!);
  return stack(
    linesChart({
      foot: { label: 'Minutes' },
      yLabel: 'Lactate, mmol/L',
      lines: courses.map(({ name, minute, lactate }) => ({ name, x: minute, y: lactate })),
      spans: { text: 'at work', at: spans },
      title: `${reps} × ${repMinutes} min at ${shares.map((share) => Math.round(100 * share)).join(', ')} % of the MLSS`,
      summary:
        `${A_MODEL} After 3 min lactate lies between ${lactateWords(Math.min(...early), 1)} and ${lactateWords(Math.max(...early), 1)}. ` +
        'A line that ends early is an athlete who had to stop.',
    }),
    table({
      caption: `Lactate at the end of each rep, mmol/L. ${A_MODEL}`,
      columns: [
        { key: 'share', heading: 'Of the MLSS' },
        { key: 'early', heading: 'Minute 3', align: 'right' as const },
        ...spans.map((_, i) => ({ key: `rep${i}`, heading: `Rep ${i + 1}`, align: 'right' as const })),
      ],
      rows: courses.map(({ share, ends }, c) => ({
        share: percentWords(share),
        early: early[c]!.toFixed(1),
        ...Object.fromEntries(spans.map((_, i) => [`rep${i}`, ends[i]?.toFixed(1) ?? 'stopped'])),
      })),
      note: 'The model clears lactate between reps faster than people do, and is not made for times to exhaustion.',
    }),
  );
}

/** Answers of some methods on tests that differ in their increment alone. */
export function showIncrements(
  athlete: KnownAthlete,
  {
    protocol,
    methods,
    increments,
  }: { protocol: StepProtocol; methods: readonly string[]; increments: readonly number[] },
): ChartView {
  const tests = increments.map((increment) => simulateTest(athlete, { ...protocol, increment }));
  const { display } = tests[0]!;
  const lines = methods.map((id) => {
    const points = tests.flatMap(({ readings, protocol: { increment } }) => {
      const answer = answerOn(readings, id);
      return answer ? [{ x: increment, y: answer.intensity }] : [];
    });
    return { name: methodById(id).name, x: points.map(({ x }) => x), y: points.map(({ y }) => y) };
  });
  const spread = lines.map(({ name, y }) =>
    y.length < 2
      ? `${name} seldom answers`
      : `${name} between ${exactly(Math.min(...y), display)} and ${intensityWords(Math.max(...y), display)}`,
  );
  return linesChart({
    foot: { label: `Increment, ${display.unit}` },
    yLabel: `Answer, ${display.unit}`,
    yLow: Math.min(...lines.flatMap(({ y }) => y)) * 0.95,
    dots: true,
    lines,
    title: 'Answers by the increment of the test',
    summary: `${A_MODEL} One athlete, tests that differ in their increment alone: ${spread.join(', ')}.`,
  });
}
