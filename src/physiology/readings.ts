import { InputError } from '../base/inputError.ts';
import type { LastStage, Readings, RecoveryReadings, Stage, StepTest } from './stepTest.ts';

/** Which samples of a test count as points of the curve. */
export interface ReadingsOptions {
  /** What to do with a last stage that was not finished. */
  lastStage?: LastStage;
  /** Put the rest sample into the readings at intensity 0. Off: rest is not on the curve. */
  includeRest?: boolean;
  /** Whether the athlete went to exhaustion; left out, it is guessed from the last stage. */
  toExhaustion?: boolean | null;
}

/** A stage counts as incomplete when more than this is missing, minutes: one second of a stopwatch. */
const TIMING_SLACK = 1 / 60;
/** Share of the last stage that must have been done for its reading to stay on the curve (our rule). */
export const LEAST_SHARE = 0.5;

/** Planned stage length in minutes: as stated, else the longest stage done; null when nothing says. */
export function plannedMinutes(test: StepTest): number | null {
  if (test.stageMinutes !== null) return test.stageMinutes;
  const known = test.stages.flatMap((s) => (s.minutes === null ? [] : [s.minutes]));
  return known.length > 0 ? Math.max(...known) : null;
}

/** Share of its planned time that a stage was kept up, in [0, 1]; 1 when the table does not say. */
export function completedShare(stage: Stage, planned: number | null): number {
  if (planned === null || stage.minutes === null) return 1;
  return stage.minutes > planned - TIMING_SLACK ? 1 : stage.minutes / planned;
}

/**
 * The last stage done when it is the hardest one and was not finished, with the share done and the intensity
 * credited for it; null when the test ended on a full stage.
 *
 * Source    Kuipers, Verstappen, Keizer, Geurten & van Kranenburg 1985, Int J Sports Med 6:197–201 (from memory)
 */
export function incompleteLast(test: StepTest): { index: number; share: number; credited: number } | null {
  const index = test.stages.length - 1;
  const last = test.stages[index];
  if (!last) return null;
  const share = completedShare(last, plannedMinutes(test));
  if (share === 1) return null;
  const before = Math.max(...test.stages.slice(0, index).map((s) => s.intensity));
  if (!(last.intensity > before) || !Number.isFinite(before)) return null;
  return { index, share, credited: before + (last.intensity - before) * share };
}

/**
 * The points that curves and methods work on: one lactate for each intensity, ascending.
 *
 * Rest is kept apart. Several samples at one intensity are averaged. A last stage that was not finished counts
 * at its credited intensity when at least half was done, and is left out otherwise. Nothing else is dropped.
 *
 * Missing   stages without a lactate give no point
 * Throws    InputError when no stage has a lactate, or a number cannot be one
 */
export function usableReadings(test: StepTest, options: ReadingsOptions = {}): Readings {
  const { lastStage = 'credited', includeRest = false } = options;
  checkNumbers(test);
  const from = firstCounted(test);
  const cutShort = lastStage === 'nominal' ? null : incompleteLast(test);
  const isCredited = cutShort !== null && lastStage === 'credited' && cutShort.share >= LEAST_SHARE;
  const samples: Sample[] = [];
  test.stages.forEach(({ intensity, lactate }, index) => {
    if (lactate === null || index < from) return;
    if (index !== cutShort?.index) samples.push({ x: intensity, y: lactate, index });
    else if (isCredited) samples.push({ x: cutShort.credited, y: lactate, index });
  });
  if (samples.length === 0) {
    throw new InputError('no stage of this test has a lactate reading; at least one is needed', {
      field: 'lactate',
    });
  }
  if (includeRest && test.restLactate !== null) samples.push({ x: 0, y: test.restLactate, index: -1 });
  const points = averaged(samples);
  const recovery = recoveryOf(test);
  const isRecoveryUsed = endsAtLast(test, points);
  const indexes = points.map((p) => p.index);
  return {
    protocol: test.protocol ?? 'step',
    sport: test.sport,
    axis: test.axis,
    x: written(new Float64Array(points.length), points, (p) => p.x),
    y: written(new Float64Array(points.length), points, (p) => p.y),
    count: written(new Uint8Array(points.length), points, (p) => p.count),
    stage: written(new Int32Array(points.length), points, (p) => p.index),
    restLactate: test.restLactate,
    stageMinutes: plannedMinutes(test),
    minute: minutesOf(test, indexes),
    recovery: isRecoveryUsed ? recovery : null,
    recoverySetAside: recovery !== null && !isRecoveryUsed,
    lactateBefore: test.lactateBefore ?? null,
    bouts: null,
    falling: isFalling(test.stages.slice(from)),
    lastCredited: isCredited && points.at(-1)?.index === cutShort.index,
    toExhaustion: options.toExhaustion === undefined ? guessExhaustion(test) : options.toExhaustion,
    notes: [
      ...leadInNotes(from),
      ...(cutShort && test.stages[cutShort.index]!.lactate !== null ? [lastNote(cutShort, isCredited)] : []),
      ...(recovery && !isRecoveryUsed ? [RECOVERY_NOT_USED] : []),
    ],
  };
}

const RECOVERY_NOT_USED =
  'The recovery samples are not used: the curve does not end with the lactate of the last stage done.';

function leadInNotes(from: number): string[] {
  if (from === 0) return [];
  const [lead, are] = from === 1 ? ['stage leads', 'is'] : [`${from} stages lead`, 'are'];
  return [`The first ${lead} in and ${are} not on the curve.`];
}

const lastNote = ({ share }: { share: number }, isCredited: boolean): string =>
  `The last stage (${Math.round(100 * share)} % done) ${isCredited ? 'counts at its credited intensity' : 'is not on the curve'}.`;

/** An array with one number of each point; `Float64Array.from` takes several times as long. */
function written<T extends Float64Array | Uint8Array | Int32Array>(
  array: T,
  points: readonly Point[],
  of: (point: Point) => number,
): T {
  points.forEach((point, i) => {
    array[i] = of(point);
  });
  return array;
}

/** Index of the first stage that counts: in a reverse test the hardest one, for those before it only lead in. */
function firstCounted({ protocol, stages }: StepTest): number {
  if (protocol !== 'reverse') return 0;
  const hardest = Math.max(...stages.map((s) => s.intensity));
  return stages.findLastIndex((s) => s.intensity === hardest);
}

const isFalling = (stages: Stage[]): boolean =>
  stages.length > 1 && stages.every((s, i) => i === 0 || s.intensity < stages[i - 1]!.intensity);

/** Minutes from the start to the end of these stages; null when the length of a stage up to them is unknown. */
function minutesOf(test: StepTest, indexes: number[]): Float64Array | null {
  const planned = plannedMinutes(test);
  if (planned === null || indexes.some((index) => index < 0)) return null;
  const ends: number[] = [];
  let end = 0;
  for (const { minutes } of test.stages) {
    end += minutes ?? planned;
    ends.push(end);
  }
  return new Float64Array(indexes.map((index) => ends[index]!));
}

/** Whether the hardest point is the stage that was done last: recovery is counted from there. */
const endsAtLast = ({ stages }: StepTest, points: Sample[]): boolean =>
  points.at(-1)?.index === stages.length - 1;

/** Recovery samples in the order of time; several of one minute give their mean. */
function recoveryOf({ recovery }: StepTest): RecoveryReadings | null {
  if (!recovery || recovery.samples.length === 0) return null;
  for (const { row, minute, lactate } of recovery.samples) {
    checkLactate(lactate, row);
    if (Number.isFinite(minute) && minute >= 0) continue;
    throw new InputError(`a recovery sample needs a minute of 0 or more, got ${minute}`, {
      row,
      field: 'minute',
    });
  }
  const points = averaged(
    recovery.samples.map(({ minute, lactate }, index) => ({ x: minute, y: lactate, index })),
  );
  return {
    minute: written(new Float64Array(points.length), points, (p) => p.x),
    lactate: written(new Float64Array(points.length), points, (p) => p.y),
    mode: recovery.mode,
  };
}

interface Sample {
  x: number;
  y: number;
  /** Index of the stage; -1 for rest. */
  index: number;
}

interface Point extends Sample {
  /** How many samples were averaged. */
  count: number;
}

/** One point for each intensity, ascending; samples at the same intensity give their mean. */
function averaged(samples: Sample[]): Point[] {
  const points: Point[] = [];
  for (const { x, y, index } of inOrder(samples)) {
    const point = points[points.length - 1];
    if (point?.x !== x) {
      points.push({ x, y, index, count: 1 });
      continue;
    }
    point.count += 1;
    point.y += (y - point.y) / point.count;
  }
  return points;
}

/** By intensity, then in the order they were taken, as nearly all tests come already. */
function inOrder(samples: readonly Sample[]): readonly Sample[] {
  const before = (a: Sample, b: Sample) => a.x - b.x || a.index - b.index;
  const isOrdered = samples.every((sample, i) => i === 0 || before(samples[i - 1]!, sample) < 0);
  return isOrdered ? samples : samples.toSorted(before);
}

function checkNumbers(test: StepTest): void {
  for (const { row, intensity, lactate } of test.stages) {
    if (!Number.isFinite(intensity) || intensity < 0) {
      throw new InputError(`intensity must be a number of 0 or more, got ${intensity}`, {
        row,
        field: 'intensity',
      });
    }
    if (lactate !== null) checkLactate(lactate, row);
  }
  if (test.restLactate !== null) checkLactate(test.restLactate);
  if (test.lactateBefore != null) checkLactate(test.lactateBefore);
  if (test.stageMinutes !== null && !(test.stageMinutes > 0)) {
    throw new InputError(`stage length must be above 0 minutes, got ${test.stageMinutes}`, {
      field: 'stage length',
    });
  }
}

/** Throws InputError for a lactate that no sample can have. */
export function checkLactate(lactate: number, row?: number): void {
  if (Number.isFinite(lactate) && lactate > 0) return;
  const place = row === undefined ? {} : { row };
  throw new InputError(`lactate must be above 0 mmol/L, got ${lactate}`, { ...place, field: 'lactate' });
}

/**
 * Whether the test went to exhaustion, from its last stage: lactate of 6 mmol/L or more with a perceived exertion
 * of 17 or more (6–20 scale) says yes; lactate below 4 with an exertion of 11 to 14 says no; else nothing says
 * (our rule).
 */
function guessExhaustion(test: StepTest): boolean | null {
  const last = test.stages.at(-1);
  if (!last || last.lactate === null || last.rpe === null) return null;
  if (last.lactate >= 6 && last.rpe >= 17) return true;
  // Up to 10 the exertion may be on the 0–10 scale, where it says nothing of the kind.
  return last.lactate < 4 && last.rpe > 10 && last.rpe < 15 ? false : null;
}
