import { InputError } from '../../base/inputError.ts';
import type { Activity, Span } from './activity.ts';

/** When a sample was taken: in a stage by its 1-based number, or at a moment of the recording, s from its start. */
type SampleTime = { stage: number } | { second: number };

/** A lactate that was entered beside a recording. */
export interface LactateSample {
  at: SampleTime;
  /** mmol/L. */
  lactate: number;
}

/** A sample belongs to a stage up to this long after its end, s; blood is drawn in the break (our rule). */
const AFTER_END = 120;
const CLOCK = /^(\d{1,2}):(\d{2})(?::(\d{2}(?:[.,]\d+)?))?$/;
const STAGE = /^(?:stage|step)?\s*#?(\d{1,3})$/i;
const DAY = 86_400;

/**
 * What somebody typed for the time of a sample: a stage ('3', 'stage 3'), a clock time ('10:42', '10:42:30') or, with a
 * plus, a time from the start of the recording ('+24:00' min:s, '+1:05:00').
 *
 * Throws    InputError for anything else
 */
export function readSampleTime(text: string, { start }: Activity, utcOffsetMinutes: number): SampleTime {
  const written = text.trim();
  const stage = STAGE.exec(written)?.[1];
  if (stage !== undefined && Number(stage) > 0) return { stage: Number(stage) };
  const fromStart = written.startsWith('+');
  const match = CLOCK.exec(fromStart ? written.slice(1).trim() : written);
  if (!match)
    throw new InputError(
      `"${written}" is no time of a sample; expected a stage such as 3, a clock time such as 10:42, or +24:00 from the start`,
    );
  const [a, b, c] = [
    Number(match[1]),
    Number(match[2]),
    match[3] === undefined ? null : Number(match[3].replace(',', '.')),
  ];
  if (fromStart) return { second: c === null ? 60 * a + b : 3600 * a + 60 * b + c };
  const clock = 3600 * a + 60 * b + (c ?? 0);
  const began = (((start + 60 * utcOffsetMinutes) % DAY) + DAY) % DAY;
  // A session may run past midnight.
  return { second: (clock - began + DAY) % DAY };
}

/** Index of the stage that a moment belongs to: the one that ended last before it, or that it is in the second half of. */
function stageAt(second: number, spans: readonly Span[]): number {
  const distances = spans.map(({ start, end }) => {
    const inside = second >= start + (end - start) / 2 && second <= end;
    return inside ? 0 : second > end && second - end <= AFTER_END ? second - end : NaN;
  });
  const known = distances.filter((distance) => !Number.isNaN(distance));
  return known.length === 0 ? -1 : distances.indexOf(Math.min(...known));
}

const clockText = (second: number) =>
  `${Math.floor(second / 60)}:${String(Math.floor(second % 60)).padStart(2, '0')}`;

/**
 * The lactate of each stage. A sample at a moment belongs to the stage in whose second half it was taken, or that ended up
 * to two minutes before.
 *
 * Missing   a stage without a sample has null
 * Throws    InputError for a sample that belongs to no stage, and for a second one of a stage
 */
export function alignSamples(spans: readonly Span[], samples: readonly LactateSample[]): (number | null)[] {
  const lactates: (number | null)[] = spans.map(() => null);
  for (const { at, lactate } of samples) {
    const where = 'stage' in at ? `stage ${at.stage}` : `minute ${clockText(at.second)}`;
    const index = 'stage' in at ? at.stage - 1 : stageAt(at.second, spans);
    if (index < 0 || index >= spans.length)
      throw new InputError(
        `the sample of ${lactate} mmol/L at ${where} belongs to none of the ${spans.length} stages; expected one in the second half of a stage or within ${AFTER_END} s of its end`,
      );
    if (lactates[index] !== null)
      throw new InputError(`a second sample (${where}) for stage ${index + 1}; expected one a stage`);
    lactates[index] = lactate;
  }
  return lactates;
}
