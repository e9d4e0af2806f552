import type { Span } from './activity.ts';

/** Length of the blocks in which steps are looked for first, s. */
const BLOCK = 5;
/** Shortest step that is looked for, s: a break to draw blood is one (our rule). */
const SHORTEST = 20;
const MOST_STEPS = 200;
/** Least difference between neighbouring steps, as a share of the middle intensity (our rule: tests step by 5 % and more). */
const LEAST_DIFFERENCE = 0.03;
/** Standard deviations by which the levels of neighbouring steps differ at least, noise of one second to the next counted double (our rule). */
const LEAST_DEVIATIONS = 6;

/** Prefix sums that give the squared error of any stretch about its mean in one step. */
class Stretches {
  readonly #sum: Float64Array;
  readonly #squares: Float64Array;

  constructor(values: Float64Array) {
    this.#sum = new Float64Array(values.length + 1);
    this.#squares = new Float64Array(values.length + 1);
    values.forEach((value, i) => {
      this.#sum[i + 1] = this.#sum[i]! + value;
      this.#squares[i + 1] = this.#squares[i]! + value * value;
    });
  }

  mean(from: number, to: number): number {
    return (this.#sum[to]! - this.#sum[from]!) / (to - from);
  }

  error(from: number, to: number): number {
    const sum = this.#sum[to]! - this.#sum[from]!;
    return this.#squares[to]! - this.#squares[from]! - (sum * sum) / (to - from);
  }

  /** The cut that takes most error away, at least `least` from both ends; null when there is no room. */
  cut(from: number, to: number, least: number): { at: number; gain: number } | null {
    const whole = this.error(from, to);
    let best: { at: number; gain: number } | null = null;
    for (let at = from + least; at <= to - least; at++) {
      const gain = whole - this.error(from, at) - this.error(at, to);
      if (best === null || gain > best.gain) best = { at, gain };
    }
    return best;
  }
}

const median = (values: Float64Array) => {
  const sorted = values.slice().sort();
  return sorted.length === 0 ? NaN : sorted[sorted.length >> 1]!;
};

/** Medians of blocks: a spike of a second or a moment without pedalling leaves no trace. Blocks without values take the last. */
function blockMedians(values: Float64Array): Float64Array {
  const blocks = new Float64Array(Math.floor(values.length / BLOCK));
  for (let b = 0; b < blocks.length; b++) {
    const known = values.subarray(b * BLOCK, (b + 1) * BLOCK).filter((value) => !Number.isNaN(value));
    blocks[b] = known.length === 0 ? (blocks[b - 1] ?? 0) : median(known);
  }
  return blocks;
}

/**
 * Standard deviation of blocks about their level as a share of it, from one to the next so that steps do not count: the
 * harder the effort the more it sways.
 */
function noiseOf(blocks: Float64Array): number {
  const shares: number[] = [];
  for (let i = 1; i < blocks.length; i++) {
    const level = (blocks[i]! + blocks[i - 1]!) / 2;
    if (level > 0) shares.push(Math.abs(blocks[i]! - blocks[i - 1]!) / level);
  }
  // Median of absolute differences of two normal numbers to their standard deviation: 1 / (0.6745 · √2).
  return shares.length === 0 ? 0 : 1.0484 * median(Float64Array.from(shares));
}

/** Whether two neighbouring stretches differ by more than the noise and the least difference. */
class Judge {
  readonly #stretches: Stretches;
  readonly #difference: number;
  readonly #noise: number;

  constructor(stretches: Stretches, blocks: Float64Array) {
    this.#stretches = stretches;
    this.#noise = noiseOf(blocks);
    const usual = median(blocks.filter((value) => value > 0));
    this.#difference = Number.isNaN(usual) ? Number.POSITIVE_INFINITY : LEAST_DIFFERENCE * usual;
  }

  /** Jump at a cut over what it must be at least; below 1 it is none. */
  strength(from: number, at: number, to: number): number {
    const [before, after] = [this.#stretches.mean(from, at), this.#stretches.mean(at, to)];
    const jump = Math.abs(after - before);
    const error = this.#noise * Math.max(before, after) * Math.sqrt(1 / (at - from) + 1 / (to - at));
    return jump / Math.max(this.#difference, LEAST_DEVIATIONS * error);
  }
}

/**
 * Places at which the level of blocks changes, the greatest change first. A stretch is also tried where its two halves
 * hardly differ: a break in its middle leaves both sides alike.
 */
function cutsIn(length: number, stretches: Stretches, judge: Judge): number[] {
  const least = SHORTEST / BLOCK;
  const cuts: number[] = [];
  const open: { from: number; to: number; weak: boolean }[] = [{ from: 0, to: length, weak: false }];
  while (open.length > 0 && cuts.length < 2 * MOST_STEPS) {
    const { from, to, weak } = open.pop()!;
    const cut = to - from < 2 * least ? null : stretches.cut(from, to, least);
    if (!cut) continue;
    const isWeak = judge.strength(from, cut.at, to) < 1;
    if (isWeak && weak) continue;
    cuts.push(cut.at);
    open.push({ from, to: cut.at, weak: isWeak }, { from: cut.at, to, weak: isWeak });
  }
  return cuts.sort((a, b) => a - b);
}

/** The cuts without those at which nothing changes, the weakest first. */
function withoutWeak(cuts: readonly number[], length: number, judge: Judge): number[] {
  let kept = [...cuts];
  while (kept.length > 0) {
    const edges = [0, ...kept, length];
    const strengths = kept.map((at, i) => judge.strength(edges[i]!, at, edges[i + 2]!));
    const weakest = Math.min(...strengths);
    if (weakest >= 1 && kept.length < MOST_STEPS) break;
    kept = kept.filter((_, i) => i !== strengths.indexOf(weakest));
  }
  return kept;
}

/** A cut to the second: where the two levels part best, within two blocks of where the blocks put it. */
function refined(values: Float64Array, at: number, [before, after]: [number, number]): number {
  const from = Math.max(1, at - 2 * BLOCK);
  const to = Math.min(values.length - 1, at + 2 * BLOCK);
  const middle = (before + after) / 2;
  const beyond = (value: number) => (after > before ? value > middle : value < middle);
  let [best, least] = [at, Number.POSITIVE_INFINITY];
  for (let cut = from; cut <= to; cut++) {
    let wrong = 0;
    for (let i = from; i < to; i++) if (!Number.isNaN(values[i]!) && beyond(values[i]!) !== i >= cut) wrong++;
    if (wrong < least) [best, least] = [cut, wrong];
  }
  return best;
}

/**
 * Stretches of even intensity in a recording, for one value a second.
 *
 * Model     medians of 5 s, cut in two again and again where that takes most squared error away, down to 20 s; cuts
 *           between levels closer than 3 % of the middle intensity, or than six standard deviations of the noise, are
 *           dropped, the others set to the second
 * Missing   seconds without a value take the level before them
 * Cost      n log n for even steps; a recording of four hours takes some 10 ms
 * Source    binary segmentation: Scott & Knott 1974, Biometrics 30:507–512 (from memory); bounds are our rule
 */
export function detectSteps(values: Float64Array): Span[] {
  const blocks = blockMedians(values);
  const stretches = new Stretches(blocks);
  const judge = new Judge(stretches, blocks);
  const cuts = withoutWeak(cutsIn(blocks.length, stretches, judge), blocks.length, judge);
  const edges = [0, ...cuts, blocks.length];
  const inSeconds = cuts.map((at, i) =>
    refined(values, at * BLOCK, [stretches.mean(edges[i]!, at), stretches.mean(at, edges[i + 2]!)]),
  );
  const ends = [...inSeconds, values.length];
  return ends.map((end, i) => ({ start: i === 0 ? 0 : inSeconds[i - 1]!, end }));
}
