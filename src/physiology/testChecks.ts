import { formatNumber } from '../base/format.ts';
import { METHODS } from './methods/index.ts';
import { completedShare, incompleteLast, plannedMinutes, usableReadings } from './readings.ts';
import { intensityText, lactateText } from './refusal.ts';
import type { Readings, StepTest } from './stepTest.ts';
import { suspiciousReadings } from './suspiciousReadings.ts';

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

/**
 * Reading differences below this are within what a handheld meter repeats, mmol/L: 2·√2 standard deviations
 * of 0.18 (Mentzoni 2024, Eur J Appl Physiol, abstract).
 */
const REPEATABLE = 0.5;
/** A start or rest reading this far above the lowest one is raised, mmol/L (our rule). */
const RAISED = 0.4;
/** Stages below this are too short for lactate in the blood to follow, minutes (common practice). */
const SHORT_STAGE = 3;
/** Lactates outside these are not of a person who is exercising, mmol/L (our rule). */
const PLAUSIBLE = { least: 0.3, most: 30 };

/**
 * Everything about a test that a reader of its results should know, gravest first. A finding never changes the
 * data.
 *
 * Throws    InputError as `usableReadings` does
 */
export function checkTest(test: StepTest): Finding[] {
  const readings = usableReadings(test, { lastStage: 'nominal' });
  const rank = { problem: 0, caution: 1, note: 2 };
  return CHECKS.flatMap((check) => check(test, readings)).sort((a, b) => rank[a.tone] - rank[b.tone]);
}

type Check = (test: StepTest, readings: Readings) => Finding[];

const tooFewStages: Check = (_test, { x }) => {
  const needed = (count: number) => METHODS.filter((m) => m.minPoints > count).map((m) => m.name);
  const lost = needed(x.length);
  if (lost.length === 0) return [];
  return [
    {
      code: 'too-few-stages',
      tone: lost.length === METHODS.length ? 'problem' : 'caution',
      title: `${x.length} usable ${x.length === 1 ? 'stage' : 'stages'}`,
      meaning: `Too few for ${lost.join(', ')}. Seven or more stages with three on each side of the bend serve every method.`,
      stages: [],
    },
  ];
};

const missingLactate: Check = ({ stages }) => {
  const missing = stages.flatMap((s, i) => (s.lactate === null ? [i] : []));
  if (missing.length === 0) return [];
  return [
    {
      code: 'missing-lactate',
      tone: 'note',
      title: `${missing.length} of ${stages.length} stages without lactate`,
      meaning: 'They give no point to the curve; between their neighbours the curve is a guess.',
      stages: missing,
    },
  ];
};

const implausible: Check = ({ stages }) => {
  const odd = stages.flatMap((s, i) =>
    s.lactate !== null && (s.lactate < PLAUSIBLE.least || s.lactate > PLAUSIBLE.most) ? [i] : [],
  );
  if (odd.length === 0) return [];
  return [
    {
      code: 'implausible-lactate',
      tone: 'problem',
      title: 'A lactate no test gives',
      meaning: `Readings below ${formatNumber(PLAUSIBLE.least, 1)} or above ${lactateText(PLAUSIBLE.most)} are a slip of the pen or of the meter; every method that uses them is wrong.`,
      stages: odd,
    },
  ];
};

const baselineReadings: Check = ({ restLactate }, { y }) => {
  const low = Math.min(...y);
  if (restLactate === null) {
    return [
      {
        code: 'no-rest',
        tone: 'note',
        title: 'No lactate at rest',
        meaning:
          'The baseline is taken from the easy stages. A rest sample would tell whether the athlete came rested.',
        stages: [],
      },
    ];
  }
  if (restLactate <= low + RAISED) return [];
  return [
    {
      code: 'raised-rest',
      tone: 'caution',
      title: `Lactate at rest is ${lactateText(restLactate)}, above later stages`,
      meaning:
        'The athlete did not come rested, or the sample was contaminated. Do not use rest as the baseline: thresholds counted from it come late.',
      stages: [],
    },
  ];
};

const raisedStart: Check = (_test, { y, stage }) => {
  const low = Math.min(...y);
  if (y[0]! <= low + RAISED) return [];
  return [
    {
      code: 'raised-start',
      tone: 'caution',
      title: `The first stage reads ${lactateText(y[0]! - low)} above the lowest`,
      meaning:
        'Warm-up too short, a hard start, or a contaminated sample. It bends polynomial curves and moves Dmax and log–log, which use the first point.',
      stages: [stage[0]!],
    },
  ];
};

const falling: Check = (_test, { y, stage }) => {
  const low = Math.min(...y);
  const falls = [...y.keys()].filter(
    (i) => i > 0 && y[i - 1]! > low + REPEATABLE && y[i - 1]! - y[i]! > REPEATABLE && y.indexOf(low) < i - 1,
  );
  if (falls.length === 0) return [];
  return [
    {
      code: 'falling-reading',
      tone: 'caution',
      title: 'Lactate falls after it began to rise',
      meaning:
        'At rising intensity that is hardly the athlete: check the order of the samples, sweat and the meter. Levels are crossed more than once, and the last crossing counts.',
      stages: falls.map((i) => stage[i]!),
    },
  ];
};

const suspicious: Check = (_test, readings) =>
  suspiciousReadings(readings).map(({ index, expected }) => ({
    code: 'suspicious-reading' as const,
    tone: 'caution' as const,
    title: `${lactateText(readings.y[index]!)} at ${intensityText(readings.x[index]!, readings.axis)} stands out`,
    meaning: `The other readings lead one to expect about ${lactateText(expected)}. It is kept: see how far each threshold moves when it is left out before you trust them.`,
    stages: [readings.stage[index]!],
  }));

const stageLength: Check = (test) => {
  const planned = plannedMinutes(test);
  if (planned === null) {
    return [
      {
        code: 'unknown-stage-length',
        tone: 'note',
        title: 'Stage length not stated',
        meaning:
          'Shorter stages push thresholds at fixed lactates up. Compare only with tests of the same stage length.',
        stages: [],
      },
    ];
  }
  if (planned >= SHORT_STAGE) return [];
  return [
    {
      code: 'short-stages',
      tone: 'caution',
      title: `Stages of ${formatNumber(planned, 1)} min`,
      meaning:
        'Lactate in the blood lags behind: thresholds come out too high, and are not comparable with those of stages of 3 min or more.',
      stages: [],
    },
  ];
};

const incomplete: Check = (test, { axis }) => {
  const last = incompleteLast(test);
  const planned = plannedMinutes(test);
  const early = test.stages.flatMap((s, i) =>
    completedShare(s, planned) < 1 && i !== last?.index ? [i] : [],
  );
  const findings: Finding[] = [];
  if (early.length > 0) {
    findings.push({
      code: 'incomplete-stage',
      tone: 'note',
      title: 'A stage before the end was shorter than the others',
      meaning: 'Its reading is kept at its full intensity, though lactate had less time to follow.',
      stages: early,
    });
  }
  if (!last) return findings;
  const half = last.share >= 0.5;
  findings.push({
    code: 'incomplete-last',
    tone: half ? 'note' : 'caution',
    title: `The last stage was ${Math.round(100 * last.share)} % done`,
    meaning: half
      ? `Its reading counts at ${intensityText(last.credited, axis)}. Dmax and modified Dmax use this point: compare them with the stage dropped.`
      : 'Less than half: its reading is left off the curve. It still tells the highest lactate.',
    stages: [last.index],
  });
  return findings;
};

const exhaustion: Check = (_test, { toExhaustion }) => {
  if (toExhaustion) return [];
  const affected = METHODS.filter((m) => m.maximal).map((m) => m.name);
  return [
    {
      code: 'not-to-exhaustion',
      tone: toExhaustion === false ? 'caution' : 'note',
      title:
        toExhaustion === false
          ? 'Stopped well before exhaustion'
          : 'Nothing says whether the athlete was exhausted',
      meaning: `${affected.join(', ')} ${toExhaustion === false ? 'are refused' : 'need a test to exhaustion'}: they move with where the test ends.`,
      stages: [],
    },
  ];
};

const steps: Check = (_test, { x, stage }) => {
  const sizes = [...x].slice(1).map((value, i) => value - x[i]!);
  const usual = sizes.toSorted((a, b) => a - b)[sizes.length >> 1] ?? 0;
  const odd = sizes.flatMap((size, i) => (Math.abs(size - usual) > 0.1 * usual ? [stage[i + 1]!] : []));
  if (odd.length === 0) return [];
  return [
    {
      code: 'uneven-steps',
      tone: 'note',
      title: 'Steps of different size',
      meaning:
        'A larger step leaves a wider gap in which the curve is a guess; the answers by whole stages are coarser there.',
      stages: odd,
    },
  ];
};

const repeated: Check = ({ stages }, { x, count }) => {
  const twice = new Set([...x].filter((_, i) => count[i]! > 1));
  if (twice.size === 0) return [];
  return [
    {
      code: 'repeated-intensity',
      tone: 'note',
      title: 'An intensity with more than one sample',
      meaning: 'The samples are averaged into one point, which counts accordingly more.',
      stages: stages.flatMap((s, i) => (twice.has(s.intensity) && s.lactate !== null ? [i] : [])),
    },
  ];
};

const heartRate: Check = ({ stages }) => {
  const known = stages
    .map((stage, index) => ({ ...stage, index }))
    .filter((s) => s.heartRate !== null)
    .sort((a, b) => a.intensity - b.intensity);
  const stuck = known.filter(
    (s, i) => i > 0 && s.intensity > known[i - 1]!.intensity && s.heartRate! <= known[i - 1]!.heartRate!,
  );
  if (stuck.length === 0) return [];
  return [
    {
      code: 'heart-rate-not-rising',
      tone: 'caution',
      title: 'Heart rate does not rise from one stage to the next',
      meaning:
        'A slipped strap or a column of something else: heart rates at the thresholds cannot be relied on near there.',
      stages: stuck.map((s) => s.index),
    },
  ];
};

const CHECKS: readonly Check[] = [
  tooFewStages,
  implausible,
  suspicious,
  falling,
  baselineReadings,
  raisedStart,
  incomplete,
  stageLength,
  exhaustion,
  missingLactate,
  repeated,
  steps,
  heartRate,
];
