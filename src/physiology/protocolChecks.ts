import { formatNumber } from '../base/format.ts';
import { blame, type Check, stagesWhere, when } from './findings.ts';
import { methodsFor } from './methods/index.ts';
import { DEFAULT_OPTIONS } from './preparedMethods.ts';
import { completedShare, incompleteLast, LEAST_SHARE, plannedMinutes } from './readings.ts';
import { intensityText } from './refusal.ts';

/** Stages below this are too short for lactate in the blood to follow, minutes (common practice). */
const SHORT_STAGE = 3;

/** Methods that need more stages than the test has. */
export const tooFewStages: Check = (_test, readings) => {
  const { x } = readings;
  const methods = methodsFor(readings, DEFAULT_OPTIONS);
  const lost = methods.filter((m) => m.minPoints > x.length).map((m) => m.name);
  return when(lost.length > 0, {
    code: 'too-few-stages',
    tone: lost.length === methods.length ? 'problem' : 'caution',
    title: `${x.length} usable ${x.length === 1 ? 'stage' : 'stages'}`,
    meaning:
      `Too few for ${lost.join('; ')}. Seven or more stages, with three on each side of the bend, ` +
      'serve every method.',
  });
};

/** Stages of unknown length, or too short for lactate to follow. */
export const stageLength: Check = (test) => {
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

/** Stages before the last that were cut short. */
export const incompleteStages: Check = (test) => {
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

/** A last stage that was not finished, and what became of its reading. */
export const incompleteEnd: Check = (test, { axis }) => {
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

/** A test that ended early, or of which nobody says how it ended. */
export const exhaustion: Check = (_test, readings) => {
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
      `${affected.join('; ')} ${known ? 'are refused' : 'need a test to exhaustion'}: they move with where ` +
      'the test ends.',
  });
};

/** Steps that differ by more than a tenth from the usual one. */
export const steps: Check = (_test, { x, stage, axis }) => {
  const sizes = [...x].slice(1).map((value, i) => value - x[i]!);
  const usual = sizes.toSorted((a, b) => a - b)[sizes.length >> 1] ?? 0;
  const odd = sizes.flatMap((size, i) => (Math.abs(size - usual) > 0.1 * usual ? [stage[i + 1]!] : []));
  return blame(odd, {
    code: 'uneven-steps',
    tone: 'note',
    title: 'Steps of different size',
    meaning:
      `The usual step is ${intensityText(usual, axis)}; to the stages named here it is another one. A larger step leaves a wider ` +
      'gap in which the curve is a guess, and answers by whole stages are coarser there.',
  });
};

/** Stages easier than the one before; replicates of one intensity may follow each other. */
export const falling: Check = (test) =>
  blame(
    stagesWhere(test, ({ intensity }, i) => i > 0 && intensity < test.stages[i - 1]!.intensity),
    {
      code: 'falling-intensity',
      tone: 'caution',
      title: 'A stage is easier than the one before it',
      meaning:
        'In a step test each stage is harder than the last: look for a slip of the pen, rows in another order, or two tests in one table. The ' +
        'readings are taken in order of intensity.',
    },
  );

/** Intensities that were sampled more than once. */
export const repeated: Check = (test, { x, count }) => {
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
