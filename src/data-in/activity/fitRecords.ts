import { InputError } from '../../base/inputError.ts';
import type { Fields } from './fit.ts';

interface Field {
  number: number;
  offset: number;
  size: number;
  base: number;
}

interface Definition {
  message: number;
  little: boolean;
  fields: Map<number, Field>;
  size: number;
}

const TIME = 253;
/** Base types by the low five bits: size, and whether signed. Floats and texts are none that are needed. */
const INTEGERS: Record<number, { size: 1 | 2 | 4; signed: boolean }> = {
  0: { size: 1, signed: false },
  1: { size: 1, signed: true },
  2: { size: 1, signed: false },
  3: { size: 2, signed: true },
  4: { size: 2, signed: false },
  5: { size: 4, signed: true },
  6: { size: 4, signed: false },
  10: { size: 1, signed: false },
  11: { size: 2, signed: false },
  12: { size: 4, signed: false },
  13: { size: 1, signed: false },
};
/** Types whose invalid value is 0. */
const ZERO_INVALID = [10, 11, 12];
const LEAST_HEADER = 12;

/** Reads the records of a file one after the other; nothing it meets is trusted. */
export class RecordReader {
  readonly #bytes: Uint8Array;
  readonly #view: DataView;
  readonly #file: string;
  readonly #definitions: (Definition | undefined)[] = [];
  #at = 0;
  #end = 0;
  #time = NaN;

  constructor(bytes: Uint8Array, file: string) {
    this.#bytes = bytes;
    this.#view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    this.#file = file;
  }

  /** Gives every message to `take`; returns what was wrong with the file in a sentence, null for nothing. */
  read(take: (message: number, fields: Fields) => void): string | null {
    if (!this.#header(0))
      throw new InputError(`${this.#file}: no FIT file; expected its header`, { file: this.#file });
    let next = 0;
    // Files may be joined one after the other, each with its own header.
    while (this.#header(next)) {
      const damage = this.#records(take);
      if (damage !== null) return damage;
      next = this.#end + 2;
      this.#definitions.length = 0;
    }
    return null;
  }

  /** Sets the place and the end of the records of a file that begins here. */
  #header(at: number): boolean {
    const bytes = this.#bytes;
    if (at + LEAST_HEADER > bytes.length || bytes[at]! < LEAST_HEADER) return false;
    const mark = String.fromCharCode(...bytes.subarray(at + 8, at + 12));
    if (mark !== '.FIT') return false;
    this.#at = at + bytes[at]!;
    this.#end = this.#at + this.#view.getUint32(at + 4, true);
    return true;
  }

  #records(take: (message: number, fields: Fields) => void): string | null {
    // A device that was cut off has not written the length yet.
    const told = this.#end;
    const open = told === this.#at || told + 2 > this.#bytes.length;
    const end = open ? this.#bytes.length : told;
    while (this.#at < end) {
      const start = this.#at;
      const header = this.#bytes[this.#at++]!;
      const fine = header & 0x80 ? this.#compressed(header, end, take) : this.#normal(header, end, take);
      if (fine) continue;
      const share = Math.floor((100 * start) / Math.max(told, this.#bytes.length));
      return `The file is damaged or cut off after ${share} %; it was read up to there.`;
    }
    return open ? 'The file was not closed by the device; it was read to its end.' : null;
  }

  #normal(header: number, end: number, take: (message: number, fields: Fields) => void): boolean {
    const local = header & 0x0f;
    return header & 0x40 ? this.#define(local, (header & 0x20) !== 0, end) : this.#data(local, end, take);
  }

  #compressed(header: number, end: number, take: (message: number, fields: Fields) => void): boolean {
    // Five bits of the time; it never runs back, so a smaller value means the next 32 seconds.
    if (!Number.isNaN(this.#time)) this.#time += ((header & 0x1f) - this.#time) & 0x1f;
    return this.#data((header >> 5) & 3, end, take);
  }

  #define(local: number, hasDeveloper: boolean, end: number): boolean {
    if (this.#at + 5 > end) return false;
    const little = this.#bytes[this.#at + 1] === 0;
    const message = this.#view.getUint16(this.#at + 2, little);
    const count = this.#bytes[this.#at + 4]!;
    this.#at += 5;
    const fields = new Map<number, Field>();
    let size = 0;
    for (let i = 0; i < count; i++, this.#at += 3) {
      if (this.#at + 3 > end) return false;
      const [number, length, type] = this.#bytes.subarray(this.#at, this.#at + 3) as unknown as [
        number,
        number,
        number,
      ];
      fields.set(number, { number, offset: size, size: length, base: type & 0x1f });
      size += length;
    }
    if (hasDeveloper) {
      if (this.#at >= end) return false;
      const more = this.#bytes[this.#at++]!;
      for (let i = 0; i < more; i++, this.#at += 3) {
        if (this.#at + 3 > end) return false;
        size += this.#bytes[this.#at + 1]!;
      }
    }
    this.#definitions[local] = { message, little, fields, size };
    return true;
  }

  #data(local: number, end: number, take: (message: number, fields: Fields) => void): boolean {
    const definition = this.#definitions[local];
    if (!definition || this.#at + definition.size > end) return false;
    const start = this.#at;
    this.#at += definition.size;
    const time = this.#value(definition, TIME, start);
    if (!Number.isNaN(time)) this.#time = time;
    take(definition.message, (field) =>
      field === TIME ? this.#time : this.#value(definition, field, start),
    );
    return true;
  }

  #value({ fields, little }: Definition, number: number, start: number): number {
    const field = fields.get(number);
    const type = field && INTEGERS[field.base];
    if (!type || field.size < type.size) return NaN;
    const at = start + field.offset;
    const view = this.#view;
    const { size, signed } = type;
    const raw =
      size === 1 ? view.getUint8(at) : size === 2 ? view.getUint16(at, little) : view.getUint32(at, little);
    const invalid = 2 ** (8 * size - (signed ? 1 : 0)) - 1;
    if (raw === (ZERO_INVALID.includes(field.base) ? 0 : invalid)) return NaN;
    return signed && raw >= 2 ** (8 * size - 1) ? raw - 2 ** (8 * size) : raw;
  }
}
