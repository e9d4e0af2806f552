import { Random } from '../../numerics/random.ts';
import type { ErrorModel } from '../errorModel.ts';
import { readingDraws } from '../readingDraws.ts';
import type { Readings } from '../stepTest.ts';
import { straightLine } from '../straightLine.ts';
import {
  groupsByIntensity,
  type Rep,
  type RepReading,
  type Session,
  type SessionContext,
  workBefore,
} from './session.ts';
import {
  drawHeldLevel,
  drawTimeCourse,
  EARLIEST_MINUTE,
  lactateAfterRest,
  levelOf,
  type SecondThreshold,
  type TimeCourse,
} from './sessionLevel.ts';

/** A reading with lactate and minute, and where it stands in the session. */
export interface Sample {
  reading: RepReading;
  rep: Rep;
  minute: number;
  lactate: number;
  /** Minutes of work up to it. */
  work: number;
  /** Late enough in its rep to tell where lactate is going. */
  usable: boolean;
}

/** Every lactate of a session that has a minute, in the order of time. */
export function samplesOf({ reps }: Session): Sample[] {
  const before = workBefore(reps);
  return reps.flatMap((rep, i) =>
    rep.readings.flatMap((reading): Sample[] => {
      const { minute, lactate } = reading;
      if (minute === null || lactate === null) return [];
      const usable = minute >= EARLIEST_MINUTE;
      return [{ reading, rep, minute, lactate, work: before[i]! + minute, usable }];
    }),
  );
}

/** Rise of lactate per minute of work from which it counts as drifting, mmol/L/min (Hauser 2014, abstract). */
const DRIFT = 0.05;
/** Fewest readings for a drift, and how far apart their minutes may lie (our rule). */
const DRIFT_READINGS = 3;
const SAME_MINUTE = 1;
/** From this minute of continuous work on lactate is past its first rise, min. */
const SETTLED_MINUTE = 10;

/** Places, among the samples, of those that can show a drift; none when there are too few. */
function driftSamples(samples: readonly Sample[], group: readonly Rep[], first: Rep): number[] {
  const own = samples.flatMap((sample, i) => (group.includes(sample.rep) && sample.usable ? [i] : []));
  const late = own.filter((i) => samples[i]!.minute >= SETTLED_MINUTE);
  const rep = late.length > 0 ? samples[late[0]!]!.rep : null;
  const continuous = late.filter((i) => samples[i]!.rep === rep);
  if (continuous.length >= DRIFT_READINGS) return continuous;
  const lastOfRep = own.filter((i, k) => samples[own[k + 1] ?? -1]?.rep !== samples[i]!.rep);
  const later = lastOfRep.filter((i) => samples[i]!.rep !== first);
  const minute = samples[later[0] ?? -1]?.minute ?? 0;
  const alike = later.filter((i) => Math.abs(samples[i]!.minute - minute) <= SAME_MINUTE);
  return alike.length >= DRIFT_READINGS ? alike : [];
}

/** Shares of draws in which something held, of one group of reps. */
export interface GroupChances {
  reps: Rep[];
  /** Usable readings in the group. */
  usable: number;
  /** Level that the readings lead to above that of the second threshold; null without a usable reading. */
  lactate: number | null;
  /** Lactate rising with the minutes worked; null with too few readings. */
  drift: number | null;
}

/** What the joint draws of a session say of each sample and each group of reps. */
export interface DrawnSession {
  samples: Sample[];
  /** For each sample: share of draws in which its level lies above that of the second threshold; null when too early. */
  above: (number | null)[];
  /** For each sample: the level it leads to in each draw, mmol/L; null when too early. */
  levels: (Float64Array | null)[];
  groups: GroupChances[];
  /** Level of the second threshold in each draw, and the time course. */
  held: Float64Array;
  courses: TimeCourse[];
}

/**
 * What the lactates of a session may have meant, by joint draws: errors of the readings, time course, and the level
 * that intensity held at the second threshold leads to.
 *
 * Model     each reading leads to a level: level = start + (lactate − start)/(1 − e^(−(minute − 0.5)/τ)). Start of a rep:
 *           lactate before the session, or that of the rep before, fallen off in the rest; a rep before without a reading
 *           counts as having ended like this one. A group is judged by the mean level of its usable readings; drift is
 *           the least-squares slope over minutes worked
 * Random    seeded; 3 normals a draw, then those of the readings
 * Source    our rule; drift: Hauser 2014 (abstract)
 */
export function drawSession(
  session: Session,
  { restMinutes, rest }: SessionContext,
  threshold: SecondThreshold,
  { error, draws, seed }: { error: ErrorModel; draws: number; seed: number },
): DrawnSession {
  const samples = samplesOf(session);
  const noisy = readingDraws(asReadings(session, samples), error, new Random(seed));
  const random = new Random(seed, 1);
  const before = samples.map((sample) => endOfRepBefore(session, samples, sample));
  const groups = groupsByIntensity(session.reps).map(
    (reps) => new GroupCount(reps, samples, session.reps[0]!),
  );
  const levels = samples.map(({ usable }) => (usable ? new Float64Array(draws) : null));
  const held = new Float64Array(draws);
  const courses: TimeCourse[] = [];
  for (let d = 0; d < draws; d++) {
    noisy.next();
    held[d] = drawHeldLevel(threshold, random);
    const course = drawTimeCourse(random);
    courses.push(course);
    samples.forEach(({ minute }, i) => {
      const end = before[i]! < 0 ? course.rest : noisy.y[before[i]!]!;
      const start = before[i]! < 0 ? end : lactateAfterRest(end, restMinutes, rest, course);
      if (levels[i]) levels[i]![d] = levelOf(start, noisy.y[i]!, minute, course);
    });
    for (const group of groups) group.add(levels, noisy.y, held[d]!, d);
  }
  const above = levels.map((level) => level && shareOf(level, (value, d) => value > held[d]!));
  return { samples, above, levels, held, courses, groups: groups.map((group) => group.chances(draws)) };
}

const shareOf = (values: Float64Array, holds: (value: number, d: number) => boolean): number =>
  values.reduce((count, value, d) => count + Number(holds(value, d)), 0) / values.length;

/** Place of the sample at the end of the rep before; that sample itself when there is none; -1 in the first rep. */
function endOfRepBefore({ reps }: Session, samples: readonly Sample[], { rep, reading }: Sample): number {
  const place = reps.indexOf(rep);
  if (place === 0) return -1;
  const last = samples.findLastIndex((other) => other.rep === reps[place - 1]);
  return last >= 0 ? last : samples.findIndex((other) => other.reading === reading);
}

/** Counts over the draws for one group of reps. */
class GroupCount {
  readonly #reps: Rep[];
  readonly #usable: number[];
  readonly #drift: number[];
  readonly #work: number[];
  #above = 0;
  #drifting = 0;

  constructor(reps: Rep[], samples: readonly Sample[], first: Rep) {
    this.#reps = reps;
    this.#usable = samples.flatMap((sample, i) => (reps.includes(sample.rep) && sample.usable ? [i] : []));
    this.#drift = driftSamples(samples, reps, first);
    this.#work = this.#drift.map((i) => samples[i]!.work);
  }

  add(levels: (Float64Array | null)[], lactate: Float64Array, held: number, d: number): void {
    if (this.#usable.length > 0) {
      const sum = this.#usable.reduce((total, i) => total + levels[i]![d]!, 0);
      if (sum / this.#usable.length > held) this.#above++;
    }
    if (this.#drift.length > 0) {
      const y = this.#drift.map((i) => lactate[i]!);
      const line = straightLine(this.#work, y)!;
      if (line.at(1) - line.at(0) > DRIFT) this.#drifting++;
    }
  }

  chances(draws: number): GroupChances {
    const [usable, drift] = [this.#usable.length, this.#drift.length];
    return {
      reps: this.#reps,
      usable,
      lactate: usable > 0 ? this.#above / draws : null,
      drift: drift > 0 ? this.#drifting / draws : null,
    };
  }
}

/** The samples as points of bouts: neither delay nor jitter counts for them. */
export const asReadings = ({ sport, axis }: Session, samples: readonly Sample[]): Readings => ({
  protocol: 'bouts',
  sport,
  axis,
  x: Float64Array.from(samples, ({ rep }) => rep.intensity ?? 0),
  y: Float64Array.from(samples, ({ lactate }) => lactate),
  count: new Uint8Array(samples.length).fill(1),
  stage: Int32Array.from(samples, ({ rep }) => rep.number),
  restLactate: null,
  stageMinutes: null,
  minute: Float64Array.from(samples, ({ minute }) => minute),
  recovery: null,
  recoverySetAside: false,
  lactateBefore: null,
  bouts: [],
  falling: false,
  lastCredited: false,
  toExhaustion: null,
  notes: [],
});
