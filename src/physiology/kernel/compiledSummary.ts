import {
  DENSITY_POINTS,
  DENSITY_RANKS,
  DENSITY_ROOM,
  DENSITY_START,
  DENSITY_STEP,
} from '../../numerics/density.ts';
import { RANK_BINS } from '../../numerics/selection.ts';
import { REFUSAL_CODES } from '../refusalCodes.ts';
import { beyondIn, type RankedDraws } from '../sampleSummary.ts';
import type { Density, MethodDraws } from '../samplingTypes.ts';
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
  readonly #mark: number = this.#kernel.mark();
  readonly #draws: number;
  readonly #x: number;
  readonly #code: number;
  readonly #scale: number;
  readonly #nominal: number;
  readonly #answers: number;
  readonly #counts: number;
  readonly #moments: number;
  readonly #bins: number;

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
    this.#bins = room.roomForIntegers(RANK_BINS);
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
    const mark = room.mark();
    const ranks = room.integers(Int32Array.from(places));
    const out = room.roomForFloats(places.length);
    room.exports.writeRanked(this.#answers, answered, ranks, this.#bins, out);
    const values = Array.from(room.floatsAt(out, places.length));
    room.backTo(mark);
    return values;
  }

  /** Give the room back. */
  free(): void {
    this.#kernel.backTo(this.#mark);
  }
}

/** The density of draws as a curve whose integral is `share`; null when they do not spread. See `writeDensity`. */
export function densityOf(answers: Float64Array, sd: number, share: number): Density | null {
  const room = kernel();
  const mark = room.mark();
  const [ranks, bins] = [room.roomForIntegers(DENSITY_RANKS), room.roomForIntegers(RANK_BINS)];
  const out = room.roomForFloats(DENSITY_ROOM);
  const spreads = room.exports.writeDensity(room.floats(answers), answers.length, sd, ranks, bins, out);
  const density = spreads ? curveOf(room.floatsAt(out, DENSITY_ROOM), share / answers.length) : null;
  room.backTo(mark);
  return density;
}

/** What `writeDensity` wrote, each value being worth so much. */
function curveOf(made: Float64Array, worth: number): Density {
  const [start, step] = [made[DENSITY_START]!, made[DENSITY_STEP]!];
  const x = new Float64Array(DENSITY_POINTS);
  const y = new Float64Array(DENSITY_POINTS);
  for (let i = 0; i < DENSITY_POINTS; i++) {
    x[i] = start + i * step;
    y[i] = (made[i]! * worth) / step;
  }
  return { x, y };
}
