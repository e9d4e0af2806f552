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
  readonly #kept = new Map<string, PreparedMethods>();

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
    const plan = planOf(readings);
    const kept = this.#kept.get(plan);
    if (kept) {
      const { restLactate, lactateBefore, stage, notes } = readings;
      Object.assign(kept.readings, { restLactate, lactateBefore, stage, notes });
      return kept;
    }
    const own = { ...readings, y: readings.y.slice() };
    const made = new PreparedMethods(own, methodsFor(own, this.#options, this.#ids), this.#options);
    if (this.#kept.size === MOST_KEPT) this.#kept.clear();
    // Samples of a recovery are no part of a plan.
    if (readings.recovery === null) this.#kept.set(plan, made);
    return made;
  }
}

/** Text that is the same for tests that differ in their lactates only. */
function planOf({ y: _y, stage: _stage, notes: _notes, ...plan }: Readings): string {
  const { restLactate, lactateBefore } = plan;
  const told = { ...plan, restLactate: restLactate === null, lactateBefore: lactateBefore === null };
  return Object.values(told).map(valueText).join(';');
}

const valueText = (value: unknown): string =>
  ArrayBuffer.isView(value) ? (value as Float64Array).join() : JSON.stringify(value);
