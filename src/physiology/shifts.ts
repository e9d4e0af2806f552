import { Answer } from './methods/answer.ts';
import { PreparedMethods } from './preparedMethods.ts';
import type { Shifts } from './samplingTypes.ts';
import type { BoutReadings, Readings } from './stepTest.ts';

/** Change of readings that the shifts are told for: mmol/L, and as a fraction. */
export const SHIFT_STEP = 0.1;
/** The same as a fraction of each reading. */
export const SHIFT_GAIN = 0.05;

/** Answers of prepared methods for these lactates; NaN where refused. */
export function answersOf(prepared: PreparedMethods, y = prepared.readings.y): number[] {
  const slot = new Answer();
  prepared.fit(y);
  return prepared.entries.map((_, i) => {
    prepared.answer(i, y, slot);
    return slot.x;
  });
}

/** Answers of the same methods on other readings. */
function answersOn(readings: Readings, { entries, options }: PreparedMethods): number[] {
  const methods = entries.map((entry) => entry.method);
  return answersOf(new PreparedMethods(readings, methods, options));
}

/** The readings with every lactate changed, those at rest, before and after too. */
export const changed = (readings: Readings, change: (lactate: number) => number): Readings => ({
  ...readings,
  y: readings.y.map(change),
  restLactate: readings.restLactate === null ? null : change(readings.restLactate),
  lactateBefore: readings.lactateBefore === null ? null : change(readings.lactateBefore),
  recovery: readings.recovery && { ...readings.recovery, lactate: readings.recovery.lactate.map(change) },
});

/** The readings without the one at `index`. */
function without(readings: Readings, index: number): Readings {
  const keep = (_: number, i: number) => i !== index;
  return {
    ...readings,
    x: readings.x.filter(keep),
    y: readings.y.filter(keep),
    count: readings.count.filter(keep),
    stage: readings.stage.filter(keep),
    minute: readings.minute?.filter(keep) ?? null,
    bouts: readings.bouts?.map((bout) => boutWithout(bout, index)) ?? null,
    lastCredited: readings.lastCredited && index !== readings.x.length - 1,
  };
}

/** A bout's place among the points when the one at `index` is gone. */
const boutWithout = (bout: BoutReadings, index: number): BoutReadings => ({
  ...bout,
  start: bout.start - (index < bout.start ? 1 : 0),
  end: bout.end - (index < bout.end ? 1 : 0),
});

/** How far each method's estimate moves when the readings change a little, or one is left out. */
export function shiftsOf(prepared: PreparedMethods): Shifts[] {
  const { readings } = prepared;
  const base = answersOf(prepared);
  const points = [...readings.y.keys()];
  const offset = answersOn(
    changed(readings, (y) => y + SHIFT_STEP),
    prepared,
  );
  const gain = answersOn(
    changed(readings, (y) => y * (1 + SHIFT_GAIN)),
    prepared,
  );
  const perReading = points.map((at) =>
    answersOf(
      prepared,
      readings.y.map((y, i) => (i === at ? y + SHIFT_STEP : y)),
    ),
  );
  const leaveOut = points.map((at) => answersOn(without(readings, at), prepared));
  return base.map((from, m) => {
    const shift = (to: number[]) => (Number.isNaN(to[m]! - from) ? null : to[m]! - from);
    return {
      offset: shift(offset),
      gain: shift(gain),
      perReading: perReading.map(shift),
      leaveOut: leaveOut.map(shift),
    };
  });
}
