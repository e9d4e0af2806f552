import type { Curve } from './curves/curve.ts';
import { MODELS, prepareCurve } from './curves/index.ts';
import { refuse } from './methods/answer.ts';
import type { Answer, Estimator, Method, MethodOptions } from './methods/method.ts';
import { type Refusal, submaximal, tooFewPoints } from './refusal.ts';
import type { CurveId, Readings } from './stepTest.ts';

export const DEFAULT_OPTIONS: MethodOptions = { curve: null, baseline: 'lowest-two', ends: 'fitted' };

/** The curve a method reads under these options. */
export const curveOf = (method: Method, options: MethodOptions): CurveId | null =>
  method.anyCurve && options.curve !== null ? options.curve : method.curve;

/** A method ready to run on any lactates at one test's intensities, or the reason why it cannot. */
export type PreparedMethod = { method: Method; model: CurveId | null } & (
  | { estimator: Estimator; curve: Curve | null; refused: null }
  | { estimator: null; curve: null; refused: Refusal }
);

/**
 * Methods prepared for one test: the same object gives the headline estimates and every draw. Methods that read
 * the same curve share one fit. `fit` and `answer` allocate nothing.
 */
export class PreparedMethods {
  readonly readings: Readings;
  readonly options: MethodOptions;
  readonly entries: readonly PreparedMethod[];
  readonly #curves = new Map<CurveId, Curve>();
  readonly #fits: readonly Curve[];

  /** `readings.restLactate` is read again at each answer, so a caller that draws it may change it. */
  constructor(readings: Readings, methods: readonly Method[], options: MethodOptions) {
    this.readings = readings;
    this.options = options;
    this.entries = methods.map((method) => this.#prepare(method));
    this.#fits = [...this.#curves.values()];
  }

  #prepare(method: Method): PreparedMethod {
    const { readings, options } = this;
    const model = curveOf(method, options);
    const refused = refusalBefore(method, readings, options);
    if (refused) return { method, model, estimator: null, curve: null, refused };
    const curve = model === null ? null : this.#curve(model);
    return { method, model, estimator: method.prepare(readings, options), curve, refused: null };
  }

  #curve(model: CurveId): Curve {
    let curve = this.#curves.get(model);
    if (!curve) {
      curve = prepareCurve(model, this.readings.x, this.readings.count);
      this.#curves.set(model, curve);
    }
    return curve;
  }

  /** Fit every curve that is needed to these lactates. */
  fit(y: Float64Array): void {
    for (const curve of this.#fits) curve.fit(y);
  }

  /** Answer of the method at `index` for the lactates that were fitted last. */
  answer(index: number, y: Float64Array, slot: Answer): void {
    const { estimator, curve, refused } = this.entries[index]!;
    if (refused) refuse(slot, refused.code);
    else if (curve && curve.status !== 'ok') {
      refuse(slot, curve.status === 'singular' ? 'E_SINGULAR' : 'E_NOT_CONVEX');
    } else estimator(y, curve, slot);
  }
}

function refusalBefore(method: Method, readings: Readings, options: MethodOptions): Refusal | null {
  const model = curveOf(method, options);
  const needed = Math.max(method.minPoints, model === null ? 0 : MODELS[model].minPoints);
  if (readings.x.length < needed) return tooFewPoints(needed, readings.x.length);
  if (method.maximal && readings.toExhaustion === false) return submaximal();
  return method.refuses?.(readings, options) ?? null;
}
