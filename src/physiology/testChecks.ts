import { formatNumber } from '../base/format.ts';
import { methodsFor } from './methods/index.ts';
import { DEFAULT_OPTIONS } from './preparedMethods.ts';
import {
  completedShare,
  incompleteLast,
  LEAST_SHARE,
  plannedMinutes,
  type ReadingsOptions,
  usableReadings,
} from './readings.ts';
import { intensityText, lactateText } from './refusal.ts';
import type { Readings, Stage, StepTest } from './stepTest.ts';
import { REPEATABLE, suspiciousReadings } from './suspiciousReadings.ts';

export type FindingCode =
  | 'too-few-stages'
  | 'no-rest'
  | 'raised-rest'
  | 'raised-start'
  | 'falling-reading'
  | 'suspicious-reading'
  | 'short-stages'
  | 'unknown-stage-length'
  | 'incomplete-last'
  | 'incomplete-stage'
  | 'not-to-exhaustion'
  | 'uneven-steps'
  | 'implausible-lactate'
  | 'repeated-intensity'
  | 'missing-lactate'
  | 'heart-rate-not-rising';

/** Something about how a test was done or written down that bears on its results. */
export interface Finding {
  code: FindingCode;
  tone: 'note' | 'caution' | 'problem';
  title: string;
  /** What it does to the results, in one or two sentences. */
  meaning: string;
  /** Indexes into `StepTest.stages`. */
  stages: number[];
}

/** A start or rest reading this far above the lowest one is raised, mmol/L (our rule). */
const RAISED = 0.4;
/** Stages below this are too short for lactate in the blood to follow, minutes (common practice). */
const SHORT_STAGE = 3;
/** Lactates outside these are not of a person who is exercising, mmol/L (our rule). */
const PLAUSIBLE = { least: 0.3, most: 30 };

/**
 * Everything about a test that a reader of its results should know, gravest first. A finding never changes the
 * data. `toExhaustion` is what the user says about the end of the test; left out, it is guessed.
 *
 * Throws    InputError as `usableReadings` does
 */
export function checkTest(test: StepTest, options: Pick<ReadingsOptions, 'toExhaustion'> = {}): Finding[] {
  const readings = usableReadings(test, { ...options, lastStage: 'nominal' });
  const rank = { problem: 0, caution: 1, note: 2 };
  const checks = (test.protocol ?? 'step') === 'step' ? CHECKS : CHECKS.filter((c) => !STEP_ONLY.has(c));
  return checks.flatMap((check) => check(test, readings)).sort((a, b) => rank[a.tone] - rank[b.tone]);
}

type Check = (test: StepTest, readings: Readings) => Finding[];

/** One finding, or none when it is about stages and there are none to blame. */
function blame(stages: number[], about: Omit<Finding, 'stages'>): Finding[] {
  return stages.length > 0 ? [{ ...about, stages }] : [];
}

/** One finding about the test as a whole when the condition holds. */
function when(condition: boolean, about: Omit<Finding, 'stages'>): Finding[] {
  return condition ? [{ ...about, stages: [] }] : [];
}

/** Indexes of the stages for which the condition holds. */
const stagesWhere = ({ stages }: StepTest, condition: (stage: Stage, index: number) => boolean): number[] =>
  stages.flatMap((stage, index) => (condition(stage, index) ? [index] : []));

const tooFewStages: Check = (_test, readings) => {
  const { x } = readings;
  const methods = methodsFor(readings, DEFAULT_OPTIONS);
  const lost = methods.filter((m) => m.minPoints > x.length).map((m) => m.name);
  return when(lost.length > 0, {
    code: 'too-few-stages',
    tone: lost.length === methods.length ? 'problem' : 'caution',
    title: `${x.length} usable ${x.length === 1 ? 'stage' : 'stages'}`,
    meaning:
      `Too few for ${lost.join(', ')}. Seven or more stages, with three on each side of the bend, ` +
      'serve every method.',
  });
};

const missingLactate: Check = (test) => {
  const missing = stagesWhere(test, (s) => s.lactate === null);
  return blame(missing, {
    code: 'missing-lactate',
    tone: 'note',
    title: `${missing.length} of ${test.stages.length} stages without lactate`,
    meaning: 'They give no point to the curve; between their neighbours the curve is a guess.',
  });
};

const implausible: Check = (test) => {
  const { least, most } = PLAUSIBLE;
  const odd = stagesWhere(test, ({ lactate }) => lactate !== null && (lactate < least || lactate > most));
  return blame(odd, {
    code: 'implausible-lactate',
    tone: 'problem',
    title: 'A lactate no test gives',
    meaning:
      `Readings below ${formatNumber(least, 1)} or above ${lactateText(most)} are a slip of the pen or of the ` +
      'meter; every method that uses them is wrong.',
  });
};

const rest: Check = ({ restLactate }, { y }) => [
  ...when(restLactate === null, {
    code: 'no-rest',
    tone: 'note',
    title: 'No lactate at rest',
    meaning:
      'The baseline is taken from the easy stages. A rest sample would tell whether the athlete came rested.',
  }),
  ...when(restLactate !== null && restLactate > Math.min(...y) + RAISED, {
    code: 'raised-rest',
    tone: 'caution',
    title: `Lactate at rest is ${lactateText(restLactate ?? 0)}, above later stages`,
    meaning:
      'The athlete did not come rested, or the sample was contaminated. Do not use rest as the baseline: ' +
      'thresholds counted from it come late.',
  }),
];

const raisedStart: Check = (_test, { y, stage }) => {
  const raised = y[0]! - Math.min(...y);
  return blame(raised > RAISED ? [stage[0]!] : [], {
    code: 'raised-start',
    tone: 'caution',
    title: `The first stage reads ${lactateText(raised)} above the lowest`,
    meaning:
      'Warm-up too short, a hard start, or a contaminated sample. It bends polynomial curves and moves Dmax and ' +
      'log–log, which use the first point.',
  });
};

const falling: Check = (_test, { y, stage }) => {
  const low = Math.min(...y);
  const lowest = y.indexOf(low);
  // The reading before must have risen already: a fall towards the lowest reading is another finding.
  const falls = [...y.keys()].filter(
    (i) => i - 1 > lowest && y[i - 1]! - low > REPEATABLE && y[i - 1]! - y[i]! > REPEATABLE,
  );
  return blame(
    falls.map((i) => stage[i]!),
    {
      code: 'falling-reading',
      tone: 'caution',
      title: 'Lactate falls after it began to rise',
      meaning:
        'At rising intensity that is hardly the athlete: check the order of the samples, sweat and the meter. ' +
        'Levels are crossed more than once, and the last crossing counts.',
    },
  );
};

const suspicious: Check = (_test, readings) =>
  suspiciousReadings(readings).flatMap(({ index, expected }) =>
    blame([readings.stage[index]!], {
      code: 'suspicious-reading',
      tone: 'caution',
      title: `${lactateText(readings.y[index]!)} at ${intensityText(readings.x[index]!, readings.axis)} stands out`,
      meaning:
        `The other readings lead one to expect about ${lactateText(expected)}. It is kept: see how far each ` +
        'threshold moves when it is left out before you trust them.',
    }),
  );

const stageLength: Check = (test) => {
  const planned = plannedMinutes(test);
  return [
    ...when(planned === null, {
      code: 'unknown-stage-length',
      tone: 'note',
      title: 'Stage length not stated',
      meaning:
        'Shorter stages push thresholds at fixed lactates up. Compare only with tests of the same stage length.',
    }),
    ...when(planned !== null && planned < SHORT_STAGE, {
      code: 'short-stages',
      tone: 'caution',
      title: `Stages of ${formatNumber(planned ?? 0, 1)} min`,
      meaning:
        'Lactate in the blood lags behind: thresholds come out too high, and are not comparable with those of ' +
        'stages of 3 min or more.',
    }),
  ];
};

const incompleteStages: Check = (test) => {
  const last = incompleteLast(test);
  const planned = plannedMinutes(test);
  const early = stagesWhere(test, (s, i) => completedShare(s, planned) < 1 && i !== last?.index);
  return blame(early, {
    code: 'incomplete-stage',
    tone: 'note',
    title: 'A stage before the end was shorter than the others',
    meaning: 'Its reading is kept at its full intensity, though lactate had less time to follow.',
  });
};

const incompleteEnd: Check = (test, { axis }) => {
  const last = incompleteLast(test);
  if (!last) return [];
  const kept = last.share >= LEAST_SHARE;
  return blame([last.index], {
    code: 'incomplete-last',
    tone: kept ? 'note' : 'caution',
    title: `The last stage was ${Math.round(100 * last.share)} % done`,
    meaning: kept
      ? `Its reading counts at ${intensityText(last.credited, axis)} unless you choose otherwise. Dmax and modified ` +
        'Dmax use this point: compare them with the stage dropped.'
      : 'Less than half: its reading is left off the curve unless you choose otherwise. It still tells the highest lactate.',
  });
};

const exhaustion: Check = (_test, readings) => {
  const { toExhaustion } = readings;
  const affected = methodsFor(readings, DEFAULT_OPTIONS)
    .filter((m) => m.maximal)
    .map((m) => m.name);
  const known = toExhaustion === false;
  return when(!toExhaustion && affected.length > 0, {
    code: 'not-to-exhaustion',
    tone: known ? 'caution' : 'note',
    title: known ? 'Stopped well before exhaustion' : 'Nothing says whether the athlete was exhausted',
    meaning:
      `${affected.join(', ')} ${known ? 'are refused' : 'need a test to exhaustion'}: they move with where ` +
      'the test ends.',
  });
};

const steps: Check = (_test, { x, stage }) => {
  const sizes = [...x].slice(1).map((value, i) => value - x[i]!);
  const usual = sizes.toSorted((a, b) => a - b)[sizes.length >> 1] ?? 0;
  const odd = sizes.flatMap((size, i) => (Math.abs(size - usual) > 0.1 * usual ? [stage[i + 1]!] : []));
  return blame(odd, {
    code: 'uneven-steps',
    tone: 'note',
    title: 'Steps of different size',
    meaning:
      'A larger step leaves a wider gap in which the curve is a guess; the answers by whole stages are coarser there.',
  });
};

const repeated: Check = (test, { x, count }) => {
  const twice = new Set([...x].filter((_, i) => count[i]! > 1));
  return blame(
    stagesWhere(test, (s) => twice.has(s.intensity) && s.lactate !== null),
    {
      code: 'repeated-intensity',
      tone: 'note',
      title: 'An intensity with more than one sample',
      meaning: 'The samples are averaged into one point, which counts accordingly more.',
    },
  );
};

const heartRate: Check = ({ stages }) => {
  const known = stages
    .flatMap(({ intensity, heartRate: bpm }, index) => (bpm === null ? [] : [{ intensity, bpm, index }]))
    .sort((a, b) => a.intensity - b.intensity);
  const stuck = known.filter((s, i) => {
    const before = known[i - 1];
    return before !== undefined && s.intensity > before.intensity && s.bpm <= before.bpm;
  });
  return blame(
    stuck.map((s) => s.index),
    {
      code: 'heart-rate-not-rising',
      tone: 'caution',
      title: 'Heart rate does not rise from one stage to the next',
      meaning:
        'A slipped strap or a column of something else: heart rates at the thresholds cannot be relied on near there.',
    },
  );
};

const CHECKS: readonly Check[] = [
  tooFewStages,
  implausible,
  suspicious,
  falling,
  rest,
  raisedStart,
  incompleteEnd,
  incompleteStages,
  stageLength,
  exhaustion,
  missingLactate,
  repeated,
  steps,
  heartRate,
];

/** What is a fault in a step test only: elsewhere lactate falls on purpose, and no rest sample is meant to be taken. */
const STEP_ONLY: ReadonlySet<Check> = new Set([
  suspicious,
  falling,
  rest,
  raisedStart,
  steps,
  heartRate,
  exhaustion,
]);
