import { InputError } from '../base/inputError.ts';
import { Xoshiro } from './xoshiro.ts';

/**
 * Seeded random numbers: a generator of xoshiro128** started from SplitMix64.
 *
 * Shape     `seed` any integer; `stream` 0, 1, 2 … gives independent sequences of one seed, for parts of a job
 * Accuracy  bit for bit the sequence of the published algorithms in C (tests/references/random/xoshiro128.c)
 * Source    Steele, Lea & Flood 2014, OOPSLA, for SplitMix64 (from memory)
 *
 * @example
 * new Random(1).uniform() === new Random(1).uniform() // true
 */
export class Random extends Xoshiro {
  constructor(seed: number, stream = 0) {
    super(stateOf(seed, stream));
  }

  /** The next 32 random bits, as an integer from 0 to 2³² − 1. */
  bits(): number {
    return this.next() >>> 0;
  }

  /** Exponential with mean 1. */
  exponential(): number {
    return -Math.log1p(-this.uniform());
  }
}

function stateOf(seed: number, stream: number): Int32Array {
  if (!Number.isSafeInteger(seed)) throw new InputError(`A seed must be a whole number, got ${seed}`);
  const mix = new SplitMix64(BigInt(seed), BigInt(stream) * 2n);
  const [a, b] = [mix.next(), mix.next()];
  return Int32Array.from([a, a >> 32n, b, b >> 32n], (word) => Number(BigInt.asIntN(32, word)));
}

/** SplitMix64: a counter with a strong mixing of its bits; only used to spread a seed over a state. */
export class SplitMix64 {
  #counter: bigint;

  constructor(seed: bigint, skip = 0n) {
    this.#counter = seed + skip * 0x9e3779b97f4a7c15n;
  }

  next(): bigint {
    this.#counter = BigInt.asUintN(64, this.#counter + 0x9e3779b97f4a7c15n);
    let z = this.#counter;
    z = BigInt.asUintN(64, (z ^ (z >> 30n)) * 0xbf58476d1ce4e5b9n);
    z = BigInt.asUintN(64, (z ^ (z >> 27n)) * 0x94d049bb133111ebn);
    return z ^ (z >> 31n);
  }
}
