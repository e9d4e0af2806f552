import type { Curve } from '../../curves/curve.ts';
import { LeastRatio } from '../../leastRatio.ts';
import { type Answer, give, refuse } from '../answer.ts';
import { Estimator, MINIMUM_EQUIVALENT, MINIMUM_EQUIVALENT_PLUS } from './estimator.ts';
import { crossLevel } from './level.ts';

/** Whether the least ratio sits at an end of the tested range, where the protocol set it. */
export function isAtEdge(x: number, curve: Curve): boolean {
  const slack = 1e-6 * (curve.hi - curve.lo);
  return x - curve.lo < slack || curve.hi - x < slack;
}

/** Where lactate over intensity is least. */
export class MinimumEquivalent extends Estimator {
  readonly #leastRatio: LeastRatio;

  constructor(stages: i32) {
    super(MINIMUM_EQUIVALENT, 0, 0);
    this.#leastRatio = new LeastRatio(stages);
  }

  find(_y: Float64Array, curve: Curve | null, answer: Answer): void {
    const best = this.#leastRatio.of(curve!);
    if (isAtEdge(best, curve!)) refuse(answer, 'E_EDGE');
    else give(answer, best, curve!.at(best));
  }
}

/** Where lactate has risen by some amount from its value there. */
export class MinimumEquivalentPlus extends Estimator {
  readonly #leastRatio: LeastRatio;

  constructor(rise: number, stages: i32) {
    super(MINIMUM_EQUIVALENT_PLUS, rise, 0);
    this.#leastRatio = new LeastRatio(stages);
  }

  find(_y: Float64Array, curve: Curve | null, answer: Answer): void {
    const from = this.#leastRatio.of(curve!);
    crossLevel(curve!, curve!.at(from) + this.first, answer, from);
  }
}
