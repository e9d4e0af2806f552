import { baselineBy } from '../../baselineBy.ts';
import type { Curve } from '../../curves/curve.ts';
import { type Answer, give, refuse } from '../answer.ts';
import { type AtRest, BASELINE_PLUS, CONSTANT, Estimator, FIXED_LEVEL } from './estimator.ts';

/** Readings have two decimals at most: values that are equal on paper must be equal here, mmol/L. */
export const ROUNDING_SLACK: number = 1e-9;

/**
 * Answer with the intensity at which the curve last rises through a lactate level, counted from `from` on.
 * Refuses when the curve never gets there, or lies above the level from the start.
 */
export function crossLevel(curve: Curve, level: number, answer: Answer, from: number): void {
  let x = curve.crossing(level, from);
  // A level reached exactly on paper may lie a rounding above the last reading.
  if (Number.isNaN(x)) x = curve.crossing(level - ROUNDING_SLACK, from);
  if (!Number.isNaN(x)) give(answer, x, level);
  else refuse(answer, curve.at(curve.lowest()) < level ? 'E_NOT_REACHED' : 'E_ALREADY_ABOVE');
}

/** Where the curve crosses a lactate that is the same for everybody. */
export class FixedLevel extends Estimator {
  constructor(level: number) {
    super(FIXED_LEVEL, level, 0);
  }

  find(_y: Float64Array, curve: Curve | null, answer: Answer): void {
    crossLevel(curve!, this.first, answer, curve!.lo);
  }
}

/** Where the curve crosses the baseline plus a rise. */
export class BaselinePlus extends Estimator {
  readonly #rest: AtRest;

  /** @param rule number of the definition of the baseline */
  constructor(rise: number, rule: number, rest: AtRest) {
    super(BASELINE_PLUS, rise, rule);
    this.#rest = rest;
  }

  find(y: Float64Array, curve: Curve | null, answer: Answer): void {
    const base = baselineBy(this.second as i32, y, this.#rest.lactate);
    crossLevel(curve!, base + this.first, answer, curve!.lo);
  }
}

/** An intensity that does not depend on the readings: what people read off them. */
export class Constant extends Estimator {
  constructor(x: number) {
    super(CONSTANT, x, 0);
  }

  find(_y: Float64Array, curve: Curve | null, answer: Answer): void {
    give(answer, this.first, curve!.at(this.first));
  }
}
