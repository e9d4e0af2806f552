import { InputError } from '../base/inputError.ts';
import { checkLactate, type ReadingsOptions, usableReadings } from './readings.ts';
import type { Bout, BoutReadings, BoutTest, Readings, TestData } from './stepTest.ts';

/** The points that methods work on, whatever the protocol of the test. */
export const readingsOf = (test: TestData, options: ReadingsOptions = {}): Readings =>
  test.protocol === 'bouts' ? boutReadings(test) : usableReadings(test, options);

/**
 * The samples of all bouts as one row of points, bout after bout in the order of intensity.
 *
 * Throws    InputError when there is no sample, two bouts share an intensity, or a number cannot be one
 */
export function boutReadings(test: BoutTest): Readings {
  const bouts = test.bouts.toSorted((a, b) => a.intensity - b.intensity);
  checkBouts(bouts);
  const samples = bouts.flatMap((bout) =>
    bout.samples.toSorted((a, b) => a.minute - b.minute).map((sample) => ({ ...sample, x: bout.intensity })),
  );
  if (samples.length === 0) {
    throw new InputError('no bout has a lactate reading; at least one is needed', { field: 'lactate' });
  }
  return {
    protocol: 'bouts',
    sport: test.sport,
    axis: test.axis,
    x: Float64Array.from(samples, (s) => s.x),
    y: Float64Array.from(samples, (s) => s.lactate),
    count: new Uint8Array(samples.length).fill(1),
    stage: Int32Array.from(samples, (s) => bouts.findIndex((bout) => bout.intensity === s.x)),
    restLactate: null,
    stageMinutes: null,
    minute: Float64Array.from(samples, (s) => s.minute),
    recovery: null,
    recoverySetAside: false,
    lactateBefore: null,
    bouts: layoutOf(bouts),
    falling: false,
    lastCredited: false,
    toExhaustion: null,
    notes: [],
  };
}

function layoutOf(bouts: Bout[]): BoutReadings[] {
  let end = 0;
  return bouts.map(({ intensity, completed, samples }) => {
    const start = end;
    end += samples.length;
    return { intensity, completed, start, end };
  });
}

function checkBouts(bouts: Bout[]): void {
  bouts.forEach(({ intensity, samples }, i) => {
    if (!(Number.isFinite(intensity) && intensity > 0)) {
      throw new InputError(`the intensity of a bout must be above 0, got ${intensity}`, {
        field: 'intensity',
      });
    }
    if (intensity === bouts[i - 1]?.intensity) {
      throw new InputError(`two bouts at ${intensity}; expected one for each intensity`, {
        field: 'intensity',
      });
    }
    for (const { row, minute, lactate } of samples) {
      checkLactate(lactate, row);
      if (!(Number.isFinite(minute) && minute >= 0)) {
        throw new InputError(`the minute of a sample must be 0 or more, got ${minute}`, {
          row,
          field: 'minute',
        });
      }
    }
  });
}
