import { KERNEL } from './compiled.ts';

// What Node and every browser have, and the language's own library does not name.
declare const WebAssembly: {
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object) => { exports: unknown };
};
declare const atob: (base64: string) => string;

/** Browsers since 2025 read it themselves, many times faster. */
const fromBase64 = (Uint8Array as { fromBase64?: (text: string) => Uint8Array }).fromBase64 ?? decoded;

function decoded(base64: string): Uint8Array {
  const letters = atob(base64);
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < bytes.length; i++) bytes[i] = letters.charCodeAt(i);
  return bytes;
}

/** Address of an array in the memory of the kernel. */
type Address = number;

/** What assembly/entry.ts exports: see there. */
interface Exports {
  memory: { buffer: ArrayBuffer };
  reset(): void;
  floats(length: number): Address;
  integers(length: number): Address;
  begin(
    x: Address,
    readings: Address,
    noise: Address,
    count: Address,
    others: Address,
    otherNoise: Address,
    hasRest: number,
    state: Address,
  ): void;
  start(
    spare: number,
    gain: number,
    offset: number,
    intensityScale: number,
    rounding: number,
    contamination: number,
    contaminationSize: number,
  ): void;
  spare(): number;
  addPolynomial(degree: number, projection: Address): number;
  addSpline(freedom: number, hat: Address, bending: Address): number;
  addExponential(): number;
  addSegmented(breaks: number): number;
  addRaw(): number;
  addEstimator(kind: number, first: number, second: number, curve: number): void;
  run(draws: number, scale: Address, lactates: Address, others: Address, x: Address, code: Address): void;
  sumUp(
    draws: number,
    x: Address,
    code: Address,
    scale: Address,
    answers: Address,
    counts: Address,
    moments: Address,
  ): number;
  writeRanked(values: Address, count: number, ranks: Address, bins: Address, out: Address): void;
  writeDensity(
    values: Address,
    count: number,
    sd: number,
    ranks: Address,
    bins: Address,
    out: Address,
  ): number;
  letGo(address: Address): void;
}

/** The numbers of an array begin behind its length. */
const HEADER = 8;

/**
 * The compiled kernel: one for the whole program, with room for one plan at a time. Views of its memory hold until
 * the next array is made in it.
 */
export class Kernel {
  readonly exports: Exports;
  /** Whose plan it holds; null when nobody may count on it. */
  owner: object | null = null;
  /** All arrays made since the last reset. */
  readonly #made: Address[] = [];

  constructor() {
    const bytes = fromBase64(KERNEL);
    this.exports = new WebAssembly.Instance(new WebAssembly.Module(bytes)).exports as Exports;
  }

  /** Forget the plan and make room for another one. */
  reset(): void {
    this.owner = null;
    this.#made.length = 0;
    this.exports.reset();
  }

  /** How much there is now, for `backTo`. */
  mark(): number {
    return this.#made.length;
  }

  /** Lets go of all arrays made since the mark; nothing else may have been made in the kernel meanwhile. */
  backTo(mark: number): void {
    while (this.#made.length > mark) this.exports.letGo(this.#made.pop()!);
  }

  roomForFloats(length: number): Address {
    return this.#kept(this.exports.floats(length));
  }

  roomForIntegers(length: number): Address {
    return this.#kept(this.exports.integers(length));
  }

  #kept(address: Address): Address {
    this.#made.push(address);
    return address;
  }

  /** A copy in the kernel's memory. */
  floats(values: Float64Array): Address {
    const address = this.roomForFloats(values.length);
    this.floatsAt(address, values.length).set(values);
    return address;
  }

  /** A copy in the kernel's memory. */
  integers(values: Int32Array): Address {
    const address = this.roomForIntegers(values.length);
    this.integersAt(address, values.length).set(values);
    return address;
  }

  floatsAt(address: Address, length: number): Float64Array {
    return new Float64Array(this.exports.memory.buffer, address + HEADER, length);
  }

  integersAt(address: Address, length: number): Int32Array {
    return new Int32Array(this.exports.memory.buffer, address + HEADER, length);
  }
}

let made: Kernel | null = null;

/** The kernel, made when first asked for. */
export function kernel(): Kernel {
  made ??= new Kernel();
  return made;
}
