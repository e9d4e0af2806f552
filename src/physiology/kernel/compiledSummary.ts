import { REFUSAL_CODES } from '../refusalCodes.ts';
import { beyondIn, type RankedDraws } from '../sampleSummary.ts';
import type { MethodDraws } from '../samplingTypes.ts';
import { type Kernel, kernel } from './kernel.ts';

/** What the draws of one method say at a glance. Their order statistics can be had until the next are taken. */
export interface DrawFigures extends RankedDraws {
  /** A copy of the answers, in the order of the draws. */
  answers: Float64Array;
  /** How often each number of a refusal occurs; at 0: answers. */
  counts: Int32Array;
  /** Of the answers; NaN where there are too few. */
  mean: number;
  sd: number;
}

/**
 * Room in the kernel to sum up the draws of one method after another. It lies behind whatever plan the kernel holds: free
 * it before anybody makes draws again.
 */
export class SummaryRoom {
  readonly #kernel: Kernel = kernel();
  readonly #draws: number;
  readonly #x: number;
  readonly #code: number;
  readonly #scale: number;
  readonly #nominal: number;
  readonly #answers: number;
  readonly #counts: number;
  readonly #moments: number;

  /** @param scale factor from nominal to true intensity of each draw */
  constructor(scale: Float64Array) {
    const room = this.#kernel;
    this.#draws = scale.length;
    this.#x = room.roomForFloats(this.#draws);
    this.#code = room.roomForIntegers(this.#draws);
    this.#scale = room.floats(scale);
    this.#nominal = room.roomForFloats(0);
    this.#answers = room.roomForFloats(this.#draws);
    this.#counts = room.roomForIntegers(REFUSAL_CODES.length + 1);
    this.#moments = room.roomForFloats(3);
  }

  /** Sum up the draws of a method, as true intensities or as they are. */
  take({ x, code }: MethodDraws, asTrue: boolean): DrawFigures {
    const room = this.#kernel;
    room.floatsAt(this.#x, this.#draws).set(x);
    room.integersAt(this.#code, this.#draws).set(code);
    const answered = room.exports.sumUp(
      this.#draws,
      this.#x,
      this.#code,
      asTrue ? this.#scale : this.#nominal,
      this.#answers,
      this.#counts,
      this.#moments,
    );
    const counts = room.integersAt(this.#counts, REFUSAL_CODES.length + 1).slice();
    const [mean, sd] = room.floatsAt(this.#moments, 2) as unknown as [number, number];
    return {
      counts,
      answers: room.floatsAt(this.#answers, answered).slice(),
      answered,
      ...beyondIn(counts),
      mean,
      sd,
      valuesAt: (places) => this.#valuesAt(answered, places),
    };
  }

  #valuesAt(answered: number, places: readonly number[]): number[] {
    const room = this.#kernel;
    const ranks = room.integers(Int32Array.from(places).sort());
    room.exports.order(this.#answers, answered, ranks);
    room.exports.letGo(ranks);
    const answers = room.floatsAt(this.#answers, answered);
    return places.map((place) => answers[place - 1]!);
  }

  /** Give the room back. */
  free(): void {
    const made = [
      this.#moments,
      this.#counts,
      this.#answers,
      this.#nominal,
      this.#scale,
      this.#code,
      this.#x,
    ];
    for (const address of made) this.#kernel.exports.letGo(address);
  }
}
