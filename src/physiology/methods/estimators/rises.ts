import type { Curve } from '../../curves/curve.ts';
import { type Answer, give, refuse } from '../answer.ts';
import { Estimator, FIRST_RISE, SECOND_RISE } from './estimator.ts';
import { ROUNDING_SLACK } from './level.ts';

/** Rise that counts as one, mmol/L: about twice the error of a laboratory analyser (Bishop 1998, from memory). */
export const SUSTAINED_RISE: number = 0.4;

/** Whether lactate rises by more than the amount that counts, from one reading to another. */
export function isRise(from: number, to: number): boolean {
  return to - from > SUSTAINED_RISE + ROUNDING_SLACK;
}

/** Index of the first reading that all later ones exceed by more than the rise; -1 when there is none. */
function lastBeforeRise(y: Float64Array): i32 {
  let found = -1;
  let leastLater = y[y.length - 1]!;
  for (let i = y.length - 2; i >= 0; i--) {
    if (isRise(y[i]!, leastLater)) found = i;
    leastLater = Math.min(leastLater, y[i]!);
  }
  return found;
}

/** The first stage that all later readings exceed by more than the rise that counts. */
export class FirstRise extends Estimator {
  readonly #x: Float64Array;

  constructor(x: Float64Array) {
    super(FIRST_RISE, 0, 0);
    this.#x = x;
  }

  find(y: Float64Array, _curve: Curve | null, answer: Answer): void {
    const stage = lastBeforeRise(y);
    if (stage < 0) refuse(answer, 'E_NO_RISE');
    else if (stage === 0) refuse(answer, 'E_ALREADY_ABOVE');
    else give(answer, this.#x[stage]!, y[stage]!);
  }
}

/** Rise from stage to stage that counts for the second rise, mmol/L. */
const STEEP_RISE: number = 0.5;

/** Index of the first steep rise from `from` on that is greater than `than`; -1 when there is none. */
export function nextRise(y: Float64Array, from: i32, than: number): i32 {
  for (let i = from; i + 1 < y.length; i++) {
    const rise = y[i + 1]! - y[i]!;
    if (rise >= STEEP_RISE - ROUNDING_SLACK && rise > than + ROUNDING_SLACK) return i;
  }
  return -1;
}

/** Index of the stage before the second rise; -1 when there is none. */
export function beforeSecondRise(y: Float64Array): i32 {
  const first = nextRise(y, 0, -Infinity);
  return first < 0 ? -1 : nextRise(y, first + 1, y[first + 1]! - y[first]!);
}

/** The stage before a second steep rise that exceeds the first. */
export class SecondRise extends Estimator {
  readonly #x: Float64Array;

  constructor(x: Float64Array) {
    super(SECOND_RISE, 0, 0);
    this.#x = x;
  }

  find(y: Float64Array, _curve: Curve | null, answer: Answer): void {
    const stage = beforeSecondRise(y);
    if (stage < 0) refuse(answer, 'E_NO_RISE');
    else give(answer, this.#x[stage]!, y[stage]!);
  }
}
