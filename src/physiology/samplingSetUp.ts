import { type Estimate, estimatesOf } from './estimate.ts';
import { methodsFor } from './methods/index.ts';
import type { MethodOptions } from './methods/method.ts';
import { PreparedMethods, withDefaults } from './preparedMethods.ts';
import type { Shifts } from './samplingTypes.ts';
import { shiftsOf } from './shifts.ts';
import type { Readings } from './stepTest.ts';

/** What sampling needs of a test that does not depend on the errors of its readings. */
export interface SamplingSetUp {
  /** A copy of their own: the drawn lactates at rest, before and after the test are written into it. */
  readings: Readings;
  prepared: PreparedMethods;
  /** Without heart rates. */
  estimates: readonly Estimate[];
  /** Worked out when first asked for: they take as long as hundreds of draws. */
  readonly shifts: readonly Shifts[];
}

/** Set-ups that were asked for last, newest first: a moved error needs the same one again. */
let kept: { key: string; setUp: SamplingSetUp }[] = [];
const MOST_KEPT = 4;

/**
 * The set-up for these readings and choices. It is made once as long as their contents stay the same, whichever
 * objects hold them, so a reading that is edited in place is seen.
 */
export function samplingSetUp(
  readings: Readings,
  options: Partial<MethodOptions> | undefined,
  ids: readonly string[] | undefined,
): SamplingSetUp {
  const chosen = withDefaults(options);
  const key = contentsOf([readings, chosen, ids]);
  const found = kept.find((one) => one.key === key);
  const setUp = found?.setUp ?? makeSetUp(readings, chosen, ids);
  kept = [{ key, setUp }, ...kept.filter((one) => one.key !== key)].slice(0, MOST_KEPT);
  return setUp;
}

function makeSetUp(
  given: Readings,
  options: MethodOptions,
  ids: readonly string[] | undefined,
): SamplingSetUp {
  const readings = ownCopy(given);
  return setUpWith(new PreparedMethods(readings, methodsFor(readings, options, ids), options), given);
}

/** The set-up with methods that were made ready for these readings, in a copy of their own. */
export function setUpWith(prepared: PreparedMethods, given: Readings): SamplingSetUp {
  const { readings, options, entries } = prepared;
  const asGiven = ownCopy(given);
  let shifts: Shifts[] | null = null;
  return {
    readings,
    prepared,
    estimates: estimatesOf(prepared),
    get shifts() {
      const methods = entries.map(({ method }) => method);
      shifts ??= shiftsOf(new PreparedMethods(asGiven, methods, options));
      return shifts;
    },
  };
}

const ownCopy = (readings: Readings): Readings => ({
  ...readings,
  y: readings.y.slice(),
  recovery: readings.recovery && { ...readings.recovery, lactate: readings.recovery.lactate.slice() },
});

/** Text that differs whenever the contents do; JSON alone has no word for NaN and infinity. */
function contentsOf(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) => {
    if (ArrayBuffer.isView(part)) return (part as Float64Array).join(' ');
    return typeof part === 'number' && !Number.isFinite(part) ? `${part}` : part;
  });
}
