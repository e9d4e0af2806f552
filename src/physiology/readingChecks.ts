import { formatNumber, withUnit } from '../base/format.ts';
import { blame, type Check, stagesWhere, when } from './findings.ts';
import { HARDEST_STAGE, isImplausible } from './plausible.ts';
import { intensityText } from './refusal.ts';
import { REPEATABLE, suspiciousReadings } from './suspiciousReadings.ts';

/** A start or rest reading this far above the lowest one is raised, mmol/L (our rule). */
const RAISED = 0.4;
/** Lactates outside these are not of a person who is exercising, mmol/L (our rule). */
const PLAUSIBLE = { least: 0.3, most: 30 };

/** A lactate as a meter shows it: what the checks say needs no finer digits. */
const readingText = (lactate: number) => withUnit(formatNumber(lactate, 1), 'mmol/L');

/** Lactates that no test gives. */
export const implausible: Check = (test) => {
  const { least, most } = PLAUSIBLE;
  const odd = stagesWhere(test, ({ lactate }) => lactate !== null && (lactate < least || lactate > most));
  return blame(odd, {
    code: 'implausible-lactate',
    tone: 'problem',
    title: 'A lactate no test gives',
    meaning:
      `Readings below ${formatNumber(least, 1)} or above ${readingText(most)} are a slip of the pen or of the ` +
      'meter; every method that uses them is wrong.',
  });
};

/** Intensities that hardly anybody keeps up for a stage. */
export const implausibleIntensity: Check = (test) => {
  const { axis } = test;
  return blame(
    stagesWhere(test, ({ intensity }) => isImplausible(intensity, axis)),
    {
      code: 'implausible-intensity',
      tone: 'problem',
      title: 'An intensity hardly anybody keeps up',
      meaning:
        `A stage above ${intensityText(HARDEST_STAGE[axis], axis)} is most likely a slip of the pen; it pulls every ` +
        'curve and stretches the tested range.',
    },
  );
};

/** Readings that do not fit those around them (`suspiciousReadings`). */
export const suspicious: Check = (_test, readings) =>
  suspiciousReadings(readings).flatMap(({ index, expected }) =>
    blame([readings.stage[index]!], {
      code: 'suspicious-reading',
      tone: 'caution',
      title: `${readingText(readings.y[index]!)} at ${intensityText(readings.x[index]!, readings.axis)} stands out`,
      meaning:
        `The other readings lead one to expect about ${readingText(expected)}. It is kept: see how far each ` +
        'threshold moves when it is left out before you trust them.',
    }),
  );

/** Readings that fall though lactate had begun to rise. */
export const falling: Check = (_test, { y, stage }) => {
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

/** A rest sample that is missing, or lies above the easy stages. */
export const rest: Check = ({ restLactate }, { y }) => [
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
    title: `Lactate at rest is ${readingText(restLactate ?? 0)}, above later stages`,
    meaning:
      'The athlete did not come rested, or the sample was contaminated. Do not use rest as the baseline: ' +
      'thresholds counted from it come late.',
  }),
];

/** A first stage that reads well above the lowest reading. */
export const raisedStart: Check = (_test, { y, stage }) => {
  const raised = y[0]! - Math.min(...y);
  return blame(raised > RAISED ? [stage[0]!] : [], {
    code: 'raised-start',
    tone: 'caution',
    title: `The first stage reads ${readingText(raised)} above the lowest`,
    meaning:
      'Warm-up too short, a hard start, or a contaminated sample. It bends polynomial curves and moves Dmax and ' +
      'log–log, which use the first point.',
  });
};

/** Stages that give no point. */
export const missingLactate: Check = (test) => {
  const missing = stagesWhere(test, (s) => s.lactate === null);
  return blame(missing, {
    code: 'missing-lactate',
    tone: 'note',
    title: `${missing.length} of ${test.stages.length} stages without lactate`,
    meaning: 'They give no point to the curve; between their neighbours the curve is a guess.',
  });
};

/** Heart rates that do not rise from stage to stage. */
export const heartRate: Check = ({ stages }) => {
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
