import { InputError } from '../base/inputError.ts';
import { AdaptiveBlocks } from '../numerics/adaptiveBlocks.ts';
import { NOT_DETERMINED } from './drawShares.ts';
import type { Sampler } from './samplingError.ts';

/** How long `adaptiveSampling` goes on, and how often it gives control back. */
export interface AdaptiveOptions {
  /** Draws of one block, whose figures are compared with those of the others. */
  block?: number;
  /** Draws after which the caller gets control back; when left out, a block. */
  slice?: number;
  /** Significant digits of the standard deviation that the draws must settle: 1 for a live view, 2 for a report. */
  digits?: 1 | 2;
  /** Draws at which it stops in any case. */
  most?: number;
  /** Called with the answers of each method when a block is full. */
  onAnswers?(method: string, answers: Float64Array): void;
  /** Called when they have all been taken: the draws may be forgotten then. */
  onBlock?(): void;
}

/** How far the sampling is after a slice. */
export interface SamplingProgress {
  draws: number;
  /** Methods whose figures still move by more than their tolerance. */
  unsettled: string[];
  /** Few draws are in: figures to look at, not to print. */
  rough: boolean;
  /** Guess of the share done, 0 to 1; it may step back. */
  share: number;
  /** 'settled' and 'limit' are the last that is told. */
  state: 'running' | 'settled' | 'limit';
}

/**
 * Sampling in blocks until every method's mean, standard deviation and 95 % interval have settled. A step makes one
 * slice of a block and tells how far it is; the caller reads `sampler.summary()` whenever it likes, and cancels by asking no more.
 *
 * Stops     when no method is unsettled, after two blocks at least, or at `most` draws
 * Missing   methods that are shown without an interval, and those whose answer is a stage (their shares have the error
 *           of a count), are not waited for: our rule
 * Source    JCGM 101:2008, 7.9.4 (from memory), with its number of digits and its size of blocks as options
 */
export function* adaptiveSampling(
  sampler: Sampler,
  { block = 500, slice = block, digits = 1, most = 1_000_000, onAnswers, onBlock }: AdaptiveOptions = {},
): Generator<SamplingProgress, void> {
  for (const [field, value] of Object.entries({ block, slice, most })) {
    if (Number.isSafeInteger(value) && value >= 2) continue;
    throw new InputError(`${field} must be a whole number of draws from 2 on, got ${value}`, { field });
  }
  const watched = sampler.continuous().map((method) => new Watched(method, digits));
  const before = sampler.count;
  let drawn = 0;
  let waiting = watched;
  let state: SamplingProgress['state'] = 'running';
  while (state === 'running') {
    const from = sampler.count;
    const blockEnd = Math.min((Math.floor(drawn / block) + 1) * block, most);
    const first = drawn < block;
    yield* draw(blockEnd);
    yield* take(from);
    onBlock?.();
    waiting = watched.filter((each) => each.unsettled);
    if (waiting.length === 0 && !first) state = 'settled';
    else if (drawn >= most) state = 'limit';
    yield told();
  }

  /** Draws up to the end of a block; control goes back after each slice but the last one. */
  function* draw(end: number): Generator<SamplingProgress, void> {
    while (drawn < end) {
      const count = Math.min(slice, end - drawn);
      sampler.run(count);
      drawn += count;
      if (drawn < end) yield told();
    }
  }

  /** The figures of a block, a method at a time: together they take longer than a slice. */
  function* take(from: number): Generator<SamplingProgress, void> {
    for (const each of watched) {
      const answers = sampler.answersFrom(each.method, from);
      each.add(answers);
      onAnswers?.(each.method, answers);
      if (slice < block) yield told();
    }
  }

  function told(): SamplingProgress {
    return progressOf(before + drawn, waiting, state, { drawn, most });
  }
}

/** One method's draws so far. */
class Watched {
  readonly method: string;
  readonly blocks: AdaptiveBlocks;
  #drawn = 0;
  #answered = 0;

  constructor(method: string, digits: number) {
    this.method = method;
    this.blocks = new AdaptiveBlocks({ digits });
  }

  add(answers: Float64Array): void {
    this.blocks.add(answers);
    this.#drawn += answers.length;
    for (const value of answers) if (Number.isFinite(value)) this.#answered++;
  }

  get unsettled(): boolean {
    const determined = this.#answered >= (1 - NOT_DETERMINED) * this.#drawn;
    return determined && !this.blocks.settled;
  }
}

function progressOf(
  draws: number,
  waiting: Watched[],
  state: SamplingProgress['state'],
  { drawn, most }: { drawn: number; most: number },
): SamplingProgress {
  const worst = Math.max(1, ...waiting.map(({ blocks }) => blocks.excess));
  // Errors fall with the root of the draws, so this many times more draws are needed.
  const share = state === 'running' ? Math.max(1 / worst ** 2, drawn / most) : 1;
  return {
    draws,
    unsettled: waiting.map(({ method }) => method),
    rough: waiting.length > 0,
    share: Math.min(1, share),
    state,
  };
}
