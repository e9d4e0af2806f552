import type { RandomNumbers } from '../numerics/xoshiro.ts';
import type { ErrorModel } from './errorModel.ts';
import { noiseTerms } from './readingDraws.ts';
import type { Readings } from './stepTest.ts';
import type { ErrorSource } from './varianceShares.ts';

/** What an answer may owe its spread to: the errors of the test, and choices of whoever analyses it. */
const CHOICES = ['curve', 'baseline', 'lastStage'] as const;
/** An error of the test, or a choice of whoever analyses it. */
export type AnswerInput = ErrorSource | (typeof CHOICES)[number];

/** Inputs with one number a test, and with one number a sample: normal ones and uniform ones. */
const ONE_NORMAL = ['gain', 'offset', 'intensityScale'] as const;
const NORMALS = ['repeatability', 'delay', 'intensityJitter'] as const;
const UNIFORMS = ['rounding', 'contamination'] as const;

/** Every input, in the order of the numbers of a row. */
export const ANSWER_INPUTS: readonly AnswerInput[] = [...ONE_NORMAL, ...NORMALS, ...UNIFORMS, ...CHOICES];

/** All random numbers of one draw in a row of columns, so that those of one input can be exchanged. */
export class RowLayout {
  readonly width: number;
  readonly #samples: number;
  readonly #starts: ReadonlyMap<AnswerInput, number>;

  /** @param samples the most that any treatment of the test has, those that are no point of the curve included */
  constructor(samples: number) {
    this.#samples = samples;
    const starts = new Map<AnswerInput, number>();
    let width = 0;
    for (const input of ANSWER_INPUTS) {
      starts.set(input, width);
      width += this.#columns(input);
    }
    this.#starts = starts;
    this.width = width;
  }

  #columns(input: AnswerInput): number {
    const each = [...NORMALS, ...UNIFORMS] as readonly AnswerInput[];
    return each.includes(input) ? this.#samples : 1;
  }

  start(input: AnswerInput): number {
    return this.#starts.get(input)!;
  }

  /** Fill a row with fresh numbers. */
  draw(row: Float64Array, random: RandomNumbers): void {
    const uniformFrom = this.start('rounding');
    for (let i = 0; i < row.length; i++) row[i] = i < uniformFrom ? random.normal() : random.uniform();
  }

  /** Write `row` with the numbers of one input taken from `other`. */
  mix(into: Float64Array, row: Float64Array, other: Float64Array, input: AnswerInput): void {
    const start = this.start(input);
    into.set(row);
    into.set(other.subarray(start, start + this.#columns(input)), start);
  }

  /** Which of so many equally likely options a row chooses. */
  choice(row: Float64Array, input: (typeof CHOICES)[number], options: number): number {
    return Math.floor(row[this.start(input)]! * options);
  }
}

/** Hands the numbers of a row to `LactateDraws` in the order in which it asks for them. */
export class RowNumbers implements RandomNumbers {
  readonly #layout: RowLayout;
  /** For each sample the share of each normal term in its noise; squares add up to 1. */
  readonly #weights: Float64Array[];
  /** Where in a row the numbers of each sample are. */
  readonly #places: number[];
  readonly #numbers: Float64Array;
  #next = 0;

  /** @param places column within its input for each point, then for each other sample */
  constructor(layout: RowLayout, readings: Readings, error: ErrorModel, places: number[]) {
    this.#layout = layout;
    this.#places = places;
    this.#numbers = new Float64Array(ONE_NORMAL.length + 3 * places.length);
    this.#weights = places.map((_, i) => noiseWeights(readings, i, error));
  }

  load(row: Float64Array): void {
    let at = 0;
    for (const input of ONE_NORMAL) this.#numbers[at++] = row[this.#layout.start(input)]!;
    for (const [sample, place] of this.#places.entries()) {
      let normal = 0;
      for (const [k, input] of NORMALS.entries()) {
        normal += this.#weights[sample]![k]! * row[this.#layout.start(input) + place]!;
      }
      this.#numbers[at++] = normal;
      for (const input of UNIFORMS) this.#numbers[at++] = row[this.#layout.start(input) + place]!;
    }
    this.#next = 0;
  }

  normal(): number {
    return this.#numbers[this.#next++]!;
  }

  uniform(): number {
    return this.#numbers[this.#next++]!;
  }
}

function noiseWeights(readings: Readings, i: number, error: ErrorModel): Float64Array {
  // A sample that is no point of the curve is taken at leisure: it has its repeatability alone.
  if (i >= readings.y.length) return Float64Array.of(1, 0, 0);
  const terms = noiseTerms(readings, i, error);
  const sizes = Float64Array.from(NORMALS, (input) => terms[input]);
  const size = Math.hypot(...sizes);
  return size === 0 ? Float64Array.of(1, 0, 0) : sizes.map((term) => term / size);
}
