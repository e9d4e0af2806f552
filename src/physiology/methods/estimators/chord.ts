import { baselineBy } from '../../baselineBy.ts';
import type { Curve } from '../../curves/curve.ts';
import { type Answer, give, refuse } from '../answer.ts';
import { type AtRest, DMAX, Estimator, MODIFIED_DMAX } from './estimator.ts';
import { isRise } from './rises.ts';

/** The chord runs through measured ends. */
export const MEASURED: i32 = 0;
/** The chord runs through the ends of the curve. */
export const FITTED: i32 = 1;
/** The first rise is over the stage before, and not over a baseline. */
export const OVER_STAGE_BEFORE: i32 = -1;

/** Slope of the line between two points. */
export function slopeBetween(x1: number, y1: number, x2: number, y2: number): number {
  return (y2 - y1) / (x2 - x1);
}

/**
 * Answer with the point to the right of (fromX, fromY) where the curve lies farthest below the chord that runs from there
 * with this slope. Distance across the chord and straight down are greatest at the same point, where the curve is as
 * steep as the chord, so the scales of the axes do not matter. A curve that nowhere dips below the chord has none: its
 * point of that slope would be the one nearest to the chord.
 */
function farthestBelowChord(curve: Curve, slope: number, fromX: number, fromY: number, answer: Answer): void {
  const x = curve.tangentAt(slope, fromX);
  const lactate = curve.at(x);
  if (lactate < fromY + slope * (x - fromX)) give(answer, x, lactate);
  else refuse(answer, 'E_NOT_CONVEX');
}

/** Farthest below the chord between the two ends of the curve. */
export class Dmax extends Estimator {
  readonly #x: Float64Array;

  constructor(ends: number, x: Float64Array) {
    super(DMAX, ends, 0);
    this.#x = x;
  }

  find(y: Float64Array, curve: Curve | null, answer: Answer): void {
    const last = y.length - 1;
    const from = this.#x[0]!;
    const to = this.#x[last]!;
    const fitted = this.first === FITTED;
    const low = fitted ? curve!.at(from) : y[0]!;
    const high = fitted ? curve!.at(to) : y[last]!;
    farthestBelowChord(curve!, slopeBetween(from, low, to, high), from, low, answer);
  }
}

/**
 * Index of the reading before the first rise that counts, over the stage before or over a baseline; -1 when there is none.
 *
 * Source    Bishop, Jenkins & Mackinnon 1998 are cited for both readings of the rule; nobody here has the paper
 */
export function anchorIndex(y: Float64Array, over: i32, rest: number): i32 {
  const base = over === OVER_STAGE_BEFORE ? NaN : baselineBy(over, y, rest);
  for (let i = 0; i + 1 < y.length; i++) {
    if (isRise(over === OVER_STAGE_BEFORE ? y[i]! : base, y[i + 1]!)) return i;
  }
  return -1;
}

/** Farthest below the chord from the reading before the first rise to the last one. */
export class ModifiedDmax extends Estimator {
  readonly #x: Float64Array;
  readonly #rest: AtRest;

  /** @param over what the first rise is over: the stage before, or the number of a baseline */
  constructor(over: number, ends: number, x: Float64Array, rest: AtRest) {
    super(MODIFIED_DMAX, over, ends);
    this.#x = x;
    this.#rest = rest;
  }

  find(y: Float64Array, curve: Curve | null, answer: Answer): void {
    const start = anchorIndex(y, this.first as i32, this.#rest.lactate);
    const last = y.length - 1;
    if (start < 0) refuse(answer, 'E_NO_RISE');
    else if (start >= last - 1) refuse(answer, 'E_EDGE');
    else this.#from(start, y, curve!, answer);
  }

  #from(start: i32, y: Float64Array, curve: Curve, answer: Answer): void {
    const last = y.length - 1;
    const from = this.#x[start]!;
    const to = this.#x[last]!;
    const fitted = this.second === FITTED;
    const low = fitted ? curve.at(from) : y[start]!;
    const high = fitted ? curve.at(to) : y[last]!;
    farthestBelowChord(curve, slopeBetween(from, low, to, high), from, low, answer);
  }
}
