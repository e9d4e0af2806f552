import { formatChange, withUnit } from '../base/format.ts';
import { InputError } from '../base/inputError.ts';
import { type Estimate, estimateReadings } from '../physiology/estimate.ts';
import { LESSON_METHODS } from '../physiology/lesson/againstTruth.ts';
import { type KnownAthlete, type LessonAthleteId, truthFor } from '../physiology/lesson/lessonAthletes.ts';
import type { Claim } from '../physiology/methods/method.ts';
import { usableReadings } from '../physiology/readings.ts';
import type { Readings, StepTest } from '../physiology/stepTest.ts';
import { type StepProtocol, simulatedStepTest } from '../physiology/training/simulatedAthleteTests.ts';
import { type Choice, choice, type Slider, slider } from '../view/controls.ts';
import { type FiguresView, figures } from '../view/view.ts';
import { choiceOf } from './choices.ts';
import { bareIntensity, type Display, displayOf, percentWords } from './display.ts';

/** Stands with every figure of the lesson. */
export const A_MODEL = 'A model, not people.';

/** A step test of a simulated athlete without error, and the truth that its answers are held against. */
export interface LessonTest {
  athlete: KnownAthlete;
  protocol: StepProtocol;
  test: StepTest;
  readings: Readings;
  display: Display;
}

/** A step test of a simulated athlete to exhaustion, read without error. */
export function simulateTest(athlete: KnownAthlete, protocol: StepProtocol): LessonTest {
  const test = simulatedStepTest(athlete.type, protocol);
  const readings = usableReadings(test, { toExhaustion: true });
  return { athlete, protocol, test, readings, display: displayOf(test, readings) };
}

/**
 * A list that somebody who edits a cell may have emptied or left out.
 *
 * Throws    InputError when there is nothing in it
 */
export function someOf<Value>(
  list: readonly Value[] | undefined,
  what: string,
  example: string,
): readonly Value[] {
  if (list && list.length > 0) return list;
  throw new InputError(`${what} is missing or empty: give at least one, such as ${example}`);
}

/** Which simulated athlete is tested. */
export const simulatedAthleteChoice = (value: LessonAthleteId): Choice<LessonAthleteId> =>
  choiceOf(
    'Athlete',
    value,
    {
      cyclist: 'trained cyclist',
      enduring: 'the same, low glycolytic rate',
      sprinter: 'the same, high glycolytic rate',
      runner: 'recreational runner',
    },
    {
      says: 'The first three take up the same oxygen; they differ in how fast their muscles can make lactate.',
      source: 'invented, in the model of Mader & Heck 1986 (from memory)',
    },
  );

/** How long each stage lasts. */
export const stageLengthSlider = (value: number): Slider =>
  slider({
    label: 'Stage length',
    unit: 'min',
    min: 1,
    max: 10,
    step: 0.5,
    value,
    about: {
      says: 'How long each intensity is held: the shorter, the further lactate lags behind it.',
      source: 'common practice: 3 to 5 min',
    },
  });

/** Starts and increments that each kind of axis can be set to; the usual ones are common practice. */
const PROTOCOLS = {
  power: { start: [40, 200, 10, 100], increment: [10, 60, 5, 30] },
  speed: { start: [4, 9, 0.5, 6], increment: [0.2, 2, 0.1, 1] },
} as const;

/** What each of them is, in a sentence. */
const PARTS = {
  start: {
    label: 'Start',
    says: 'The intensity of the first stage; methods that use the ends of the curve move with it.',
  },
  increment: {
    label: 'Increment',
    says: 'By how much each stage is harder than the last; methods that answer with a stage can be no finer.',
  },
};

function protocolSlider(part: keyof typeof PARTS, { type }: KnownAthlete): Slider {
  const [min, max, step, value] = PROTOCOLS[type.axis][part];
  const { label, says } = PARTS[part];
  const unit = type.axis === 'power' ? 'W' : 'km/h';
  return slider({ label, unit, min, max, step, value, about: { says, source: 'common practice' } });
}

/** Intensity of the first stage. */
export const startSlider = (athlete: KnownAthlete): Slider => protocolSlider('start', athlete);

/** Step from stage to stage. */
export const incrementSlider = (athlete: KnownAthlete): Slider => protocolSlider('increment', athlete);

/** A choice among all methods of a step test. */
export function anyMethodChoice(label: string, value: string): Choice {
  const options = LESSON_METHODS.map(({ id, name, claim }) => ({ value: id, label: `${name} (${claim})` }));
  return choice({
    label,
    value,
    options,
    about: {
      says: 'The method that the picture below is about; in brackets the threshold that it claims to find.',
      source: 'each method’s paper stands in the workbook on methods',
    },
  });
}

/** What is known of a simulated athlete, as figures. */
export function showTruth(athlete: KnownAthlete): FiguresView {
  const { type, first, steady, share, lactate10, lactate30 } = athlete;
  const unit = type.axis === 'power' ? 'W' : 'km/h';
  const words = (x: number) => x.toFixed(type.axis === 'power' ? 0 : 2);
  return figures(
    {
      label: 'Maximal lactate steady state',
      value: words(steady),
      unit,
      note: `${percentWords(share)} of maximal oxygen uptake; lactate ${lactate10.toFixed(1)} after 10 and ${lactate30.toFixed(1)} mmol/L after 30 min`,
      tone: 'second',
    },
    {
      label: 'First threshold',
      value: words(first),
      unit,
      note: 'lactate after 30 min is 0.4 mmol/L above its lowest',
      tone: 'first',
    },
  );
}

/** An intensity of the lesson, as exactly as it is known. */
export const exactly = (intensity: number, display: Display): string =>
  bareIntensity(intensity, display, { sd: display.axis === 'power' ? 1 : 0.01 });

/** A share of the truth as a signed percentage, without its sign of per cent: `+1.4`. */
export const offWords = (share: number): string => formatChange(100 * share, 1);

/** What a method with this claim is held against, as a line of a picture. */
export function truthLine(claim: Claim, athlete: KnownAthlete, display: Display) {
  const at = truthFor(claim, athlete);
  const name = claim === 'LT1' ? 'truth' : 'MLSS';
  return { claim, at, text: `${name} ${withUnit(exactly(at, display), display.unit)}` };
}

/** The truths of both claims that methods of a step test make. */
export const truthLines = (athlete: KnownAthlete, display: Display) =>
  (['LT1', 'LT2'] as const).map((claim) => truthLine(claim, athlete, display));

/** An estimate that was not refused. */
export type Answer = Extract<Estimate, { intensity: number }>;

/** What one method says of readings; null when it gives no answer. */
export function answerOn(readings: Readings, method: string): Answer | null {
  const [estimate] = estimateReadings(readings, { methods: [method] });
  return estimate && !estimate.refused ? estimate : null;
}
