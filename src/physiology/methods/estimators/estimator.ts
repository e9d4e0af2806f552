import type { Curve } from '../../curves/curve.ts';
import { type Answer, refuse } from '../answer.ts';

// Kinds of estimators: the compiled kernel makes its own of kind and numbers (kernel/assembly/entry.ts).

/** Kind of an estimator that the kernel does not know. */
export const NOT_COMPILED: i32 = 0;
/** Kind of `FixedLevel`. */
export const FIXED_LEVEL: i32 = 1;
/** Kind of `BaselinePlus`. */
export const BASELINE_PLUS: i32 = 2;
/** Kind of `Dmax`. */
export const DMAX: i32 = 3;
/** Kind of `ModifiedDmax`. */
export const MODIFIED_DMAX: i32 = 4;
/** Kind of `FirstRise`. */
export const FIRST_RISE: i32 = 5;
/** Kind of `SecondRise`. */
export const SECOND_RISE: i32 = 6;
/** Kind of `MinimumEquivalent`. */
export const MINIMUM_EQUIVALENT: i32 = 7;
/** Kind of `MinimumEquivalentPlus`. */
export const MINIMUM_EQUIVALENT_PLUS: i32 = 8;
/** Kind of `TurnPoint`. */
export const TURN_POINT: i32 = 9;
/** Kind of `LogLogBend`. */
export const LOG_LOG: i32 = 10;
/** Kind of `SecondDerivative`. */
export const SECOND_DERIVATIVE: i32 = 11;
/** Kind of `FixedSlope`. */
export const FIXED_SLOPE: i32 = 12;
/** Kind of `Constant`. */
export const CONSTANT: i32 = 13;

/** A method prepared for one test's intensities. */
export abstract class Estimator {
  readonly kind: i32;
  /** Up to two numbers that it was made with. */
  readonly first: number;
  readonly second: number;

  constructor(kind: i32, first: number, second: number) {
    this.kind = kind;
    this.first = first;
    this.second = second;
  }

  /**
   * Write the answer for lactates y. `curve` has been fitted to y by the caller (many methods share one fit per draw);
   * methods that need none get null. Must not allocate, throw or look outside the range.
   */
  abstract find(y: Float64Array, curve: Curve | null, answer: Answer): void;
}

/** Lactate at rest: one for all estimators of a test, rewritten with each draw; NaN without such a sample. */
export class AtRest {
  lactate: number = NaN;
}

/** The answer of a method for lactates y, or the refusal of the curve that it reads. */
export function answerFrom(estimator: Estimator, curve: Curve | null, y: Float64Array, answer: Answer): void {
  if (curve === null || curve.status === 'ok') estimator.find(y, curve, answer);
  else refuse(answer, curve.status === 'singular' ? 'E_SINGULAR' : 'E_NOT_CONVEX');
}
