import type { Curve } from './curves/curve.ts';
import { MODELS, prepareCurve } from './curves/index.ts';
import type { Answer } from './methods/answer.ts';
import { refuse } from './methods/answer.ts';
import { AtRest, answerFrom, type Estimator } from './methods/estimators/estimator.ts';
import type { Method, MethodOptions } from './methods/method.ts';
import { type Refusal, submaximal, tooFewPoints, wrongProtocol } from './refusal.ts';
import type { CurveId, Readings } from './stepTest.ts';

/** How methods read where nobody says otherwise: each its own curve, the baseline of the two lowest neighbours. */
export const DEFAULT_OPTIONS: MethodOptions = {
  curve: null,
  baseline: 'lowest-two',
  ends: 'fitted',
  anchor: 'previous-stage',
  slope: null,
  visual: { LT1: [], LT2: [] },
};

/** Choices with the usual ones for all that is left out; an undefined choice counts as left out. */
export function withDefaults(options: Partial<MethodOptions> = {}): MethodOptions {
  const { curve, baseline, ends, anchor, slope, visual } = options;
  return {
    curve: curve ?? DEFAULT_OPTIONS.curve,
    baseline: baseline ?? DEFAULT_OPTIONS.baseline,
    ends: ends ?? DEFAULT_OPTIONS.ends,
    anchor: anchor ?? DEFAULT_OPTIONS.anchor,
    slope: slope ?? DEFAULT_OPTIONS.slope,
    visual: visual ?? DEFAULT_OPTIONS.visual,
  };
}

/** The curve a method reads under these options. */
export function curveOf(method: Method, { curve }: MethodOptions): CurveId | null {
  if (curve === null) return method.curve;
  return method.anyCurve || method.curves?.includes(curve) ? curve : method.curve;
}

/** A method ready to run on any lactates at one test's intensities, or the reason why it cannot. */
export type PreparedMethod = { method: Method; model: CurveId | null } & (
  | { estimator: Estimator; curve: Curve | null; refused: null }
  | { estimator: null; curve: null; refused: Refusal }
);

/**
 * Methods prepared for one test: they give the headline estimates, and the kernel is told by them what to draw. Methods that read
 * the same curve share one fit. `fit` and `answer` allocate nothing.
 */
export class PreparedMethods {
  readonly readings: Readings;
  readonly options: MethodOptions;
  readonly entries: readonly PreparedMethod[];
  readonly #rest = new AtRest();
  readonly #curves = new Map<string, Curve>();
  readonly #fits: readonly Curve[];

  /** `readings.restLactate` is read again at each fit, so a caller that draws it may change it. */
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
    const curve = model === null ? null : this.#curve(model, method.overTime ?? false);
    return { method, model, estimator: method.prepare(readings, options, this.#rest), curve, refused: null };
  }

  #curve(model: CurveId, overTime: boolean): Curve {
    const { x, minute, count } = this.readings;
    const key = overTime ? `${model} over time` : model;
    let curve = this.#curves.get(key);
    if (!curve) {
      // A method over time has refused before this when the minutes are unknown.
      curve = prepareCurve(model, overTime ? minute! : x, count);
      this.#curves.set(key, curve);
    }
    return curve;
  }

  /** Fit every curve that is needed to these lactates, or those that some methods need. */
  fit(y: Float64Array, methods?: readonly number[]): void {
    this.#rest.lactate = this.readings.restLactate ?? Number.NaN;
    if (!methods) for (const curve of this.#fits) curve.fit(y);
    else for (const m of methods) this.entries[m]!.curve?.fit(y);
  }

  /** Answer of the method at `index` for the lactates that were fitted last. */
  answer(index: number, y: Float64Array, slot: Answer): void {
    const { estimator, curve, refused } = this.entries[index]!;
    if (refused) refuse(slot, refused.code);
    else answerFrom(estimator, curve, y, slot);
  }
}

function refusalBefore(method: Method, readings: Readings, options: MethodOptions): Refusal | null {
  if (method.protocol !== readings.protocol) return wrongProtocol(method.protocol, readings.protocol);
  const model = curveOf(method, options);
  const needed = Math.max(method.minPoints, model === null ? 0 : MODELS[model].minPoints);
  const found = readings.bouts?.length ?? readings.x.length;
  if (found < needed) return tooFewPoints(needed, found, readings.bouts ? 'bouts' : 'stages');
  if (method.maximal && readings.toExhaustion === false) return submaximal();
  return method.refuses?.(readings, options) ?? null;
}
