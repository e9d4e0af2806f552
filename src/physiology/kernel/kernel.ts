import { KERNEL } from './compiled.ts';

// What Node and every browser have, and the language's own library does not name.
declare const WebAssembly: {
  Module: new (bytes: Uint8Array) => object;
  Instance: new (module: object) => { exports: unknown };
};
declare const atob: (base64: string) => string;

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
    spare: number,
  ): void;
  setErrors(
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
  order(values: Address, count: number, ranks: Address): void;
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
  /** Whose plan it holds. */
  owner: object | null = null;

  constructor() {
    const bytes = Uint8Array.from(atob(KERNEL), (letter) => letter.charCodeAt(0));
    this.exports = new WebAssembly.Instance(new WebAssembly.Module(bytes)).exports as Exports;
  }

  /** Forget the plan and make room for that of another owner. */
  reset(owner: object): void {
    this.owner = owner;
    this.exports.reset();
  }

  roomForFloats(length: number): Address {
    return this.exports.floats(length);
  }

  roomForIntegers(length: number): Address {
    return this.exports.integers(length);
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
