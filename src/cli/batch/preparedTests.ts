import { methodsFor } from '../../physiology/methods/index.ts';
import type { MethodOptions } from '../../physiology/methods/method.ts';
import { PreparedMethods } from '../../physiology/preparedMethods.ts';
import type { Readings } from '../../physiology/stepTest.ts';

/** Plans that are kept ready: a laboratory has a handful. */
const MOST_KEPT = 64;

/**
 * Methods made ready once for all tests that were done to the same plan. Making them ready takes longer than answering,
 * and hangs on everything about a test but its lactates, which are written into a copy of the readings before each
 * answer, as the draws are.
 */
export class PreparedTests {
  readonly #ids: readonly string[];
  readonly #options: MethodOptions;
  readonly #kept: PreparedMethods[] = [];

  constructor(ids: readonly string[], options: MethodOptions) {
    this.#ids = ids;
    this.#options = options;
  }

  /** Methods made ready for these readings, until the next ones are asked for. */
  methodsFor(readings: Readings): PreparedMethods {
    const prepared = this.#preparedFor(readings);
    prepared.readings.y.set(readings.y);
    return prepared;
  }

  #preparedFor(readings: Readings): PreparedMethods {
    const kept = this.#kept.find((one) => havePlan(one.readings, readings));
    if (kept) {
      const { restLactate, lactateBefore, stage, notes } = readings;
      Object.assign(kept.readings, { restLactate, lactateBefore, stage, notes });
      return kept;
    }
    const own = { ...readings, y: readings.y.slice() };
    const made = new PreparedMethods(own, methodsFor(own, this.#options, this.#ids), this.#options);
    if (this.#kept.length === MOST_KEPT) this.#kept.shift();
    // Samples of a recovery are no part of a plan.
    if (readings.recovery === null) this.#kept.push(made);
    return made;
  }
}

/** What hangs on the test itself, and is written into prepared readings before each answer. */
type Written = 'y' | 'stage' | 'notes' | 'restLactate' | 'lactateBefore';

/** The rest, what tells plans apart soonest first. */
const PLAN: Record<Exclude<keyof Readings, Written>, true> = {
  x: true,
  minute: true,
  count: true,
  sport: true,
  axis: true,
  protocol: true,
  stageMinutes: true,
  recovery: true,
  recoverySetAside: true,
  bouts: true,
  falling: true,
  lastCredited: true,
  toExhaustion: true,
};
const PLAN_KEYS = Object.keys(PLAN) as (keyof typeof PLAN)[];

/** Whether two tests were done to the same plan, so that they differ only in what is written. */
const havePlan = (a: Readings, b: Readings): boolean =>
  PLAN_KEYS.every((key) => areAlike(a[key], b[key])) &&
  (a.restLactate === null) === (b.restLactate === null) &&
  (a.lactateBefore === null) === (b.lactateBefore === null);

/** Numbers and words by their value, arrays by their numbers. */
function areAlike(a: Readings[keyof Readings], b: Readings[keyof Readings]): boolean {
  if (!ArrayBuffer.isView(a) || !ArrayBuffer.isView(b)) return a === b;
  const [these, those] = [a as Float64Array, b as Float64Array];
  return these.length === those.length && these.every((value, i) => value === those[i]);
}
