/**
 * Recordings in the FIT format.
 *
 * The packages in the registry either carry a profile of several hundred kilobytes or refuse a file whose end is missing,
 * which is what a device with an empty battery leaves behind. The records needed here are four, and the format says in
 * each file how they are laid out.
 *
 * Source    the public protocol description of the format (from memory): header, definition and data records, record
 *           headers with a compressed time, numbers of the messages and fields below
 */
import { InputError } from '../../base/inputError.ts';
import type { Sport } from '../../base/units.ts';
import { type Activity, ActivityBuilder, noSample } from './activity.ts';
import { RecordReader } from './fitRecords.ts';

/** Times count from 31 December 1989, 00:00 UTC. */
const EPOCH = 631_065_600;
const MESSAGE = { session: 18, lap: 19, record: 20, event: 21 } as const;
const TIME = 253;
/** Degrees of a position's unit: a half turn is 2³¹. */
const SEMICIRCLE = 180 / 2 ** 31;
const SPORTS: Record<number, Sport> = { 1: 'running', 2: 'cycling', 15: 'rowing' };
const TIMER = 0;
const STARTS = 0;
const STOPS = [1, 4, 8, 9];

/** Fields of one message by their number; NaN for what is missing or marked invalid. */
export type Fields = (field: number) => number;

/** Makes a recording of messages in the order of the file. */
class Recorder {
  readonly #builder: ActivityBuilder;
  #stopped = NaN;

  constructor(builder: ActivityBuilder) {
    this.#builder = builder;
  }

  take(message: number, fields: Fields): void {
    if (message === MESSAGE.record) this.#record(fields);
    else if (message === MESSAGE.lap) this.#lap(fields);
    else if (message === MESSAGE.event) this.#event(fields);
    else if (message === MESSAGE.session) this.#builder.sport ??= SPORTS[fields(5)] ?? null;
  }

  #record(fields: Fields): void {
    const enhanced = fields(73);
    this.#builder.add({
      ...noSample(),
      time: EPOCH + fields(TIME),
      heartRate: fields(3),
      cadence: fields(4),
      distance: fields(5) / 100,
      speed: (3.6 * (Number.isNaN(enhanced) ? fields(6) : enhanced)) / 1000,
      power: fields(7),
      latitude: fields(0) * SEMICIRCLE,
      longitude: fields(1) * SEMICIRCLE,
    });
  }

  /** A lap is written when it ends; its length is told in thousandths of a second. */
  #lap(fields: Fields): void {
    const start = EPOCH + fields(2);
    const end = start + fields(7) / 1000;
    this.#builder.lap(start, Number.isNaN(end) ? EPOCH + fields(TIME) : end);
  }

  #event(fields: Fields): void {
    if (fields(0) !== TIMER) return;
    const time = EPOCH + fields(TIME);
    if (fields(1) === STARTS) {
      this.#builder.pause(this.#stopped, time);
      this.#stopped = NaN;
    } else if (STOPS.includes(fields(1)) && Number.isNaN(this.#stopped)) this.#stopped = time;
  }
}

/**
 * A recording from a FIT file. One that ends too early is read as far as it goes, and says so.
 *
 * Throws    InputError for a file of another kind, or without samples
 */
export function readFit(bytes: Uint8Array, file: string): Activity {
  const builder = new ActivityBuilder(file);
  const recorder = new Recorder(builder);
  const reader = new RecordReader(bytes, file);
  const damage = reader.read((message, fields) => recorder.take(message, fields));
  if (damage !== null) builder.notes.push(damage);
  try {
    return builder.finish();
  } catch (error) {
    // A file that broke off before its first samples should say that, not that it is empty.
    if (damage === null || !(error instanceof InputError)) throw error;
    throw new InputError(`${error.message}; ${damage.charAt(0).toLowerCase()}${damage.slice(1, -1)}`, {
      file,
    });
  }
}
