import { Random } from '../../numerics/random.ts';
import type { Curve } from '../curves/curve.ts';
import { ExponentialCurve } from '../curves/exponentialCurve.ts';
import { PolynomialCurve } from '../curves/polynomialCurve.ts';
import { RawCurve } from '../curves/rawCurve.ts';
import { SegmentedCurve } from '../curves/segmentedCurve.ts';
import { SplineCurve } from '../curves/splineCurve.ts';
import { type Estimator, NOT_COMPILED } from '../methods/estimators/estimator.ts';
import type { DrawnTest } from '../readingDraws.ts';
import { type Kernel, kernel } from './kernel.ts';

/** The most draws of one block: the kernel keeps room for the answers of so many. */
export const MOST_AT_ONCE = 1000;

/** A method with its curve, both prepared for the test; without an estimator it refused before. */
interface Prepared {
  estimator: Estimator | null;
  curve: Curve | null;
}

/** One that the kernel can run. */
type Compiled = Prepared & { estimator: Estimator };

/** What is sampled. */
export interface DrawPlan {
  /** Intensities of the readings. */
  x: Float64Array;
  test: DrawnTest;
  /** Whether the first of the other samples is lactate at rest. */
  hasRest: boolean;
  methods: readonly Compiled[];
  /** Whether the drawn lactates themselves are wanted. */
  lactates: boolean;
  seed: number;
}

/** A block of draws, in views of the kernel's memory that hold until anybody makes the next; rows lie one behind the other. */
export interface DrawnBlock {
  /** Factor from nominal to true intensity of each draw. */
  scale: Float64Array;
  /** A row of lactates for each draw, and one of the samples that are no point of the curve; empty if not wanted. */
  lactates: Float64Array;
  others: Float64Array;
  /** A row of intensities for each method, and one of numbers of refusals (0: answered). */
  x: Float64Array;
  code: Int32Array;
}

/** What makes a curve of the same kind in the kernel and tells its index there; null for a kind that the kernel has not. */
function adderOf(curve: Curve): ((to: Kernel) => number) | null {
  if (curve instanceof PolynomialCurve)
    return (to) => to.exports.addPolynomial(curve.degree, to.floats(curve.projection));
  if (curve instanceof SplineCurve)
    return (to) => to.exports.addSpline(curve.parameters, to.floats(curve.hat), to.floats(curve.bending));
  if (curve instanceof ExponentialCurve) return (to) => to.exports.addExponential();
  if (curve instanceof SegmentedCurve) return (to) => to.exports.addSegmented(curve.breakpoints.length);
  return curve instanceof RawCurve ? (to) => to.exports.addRaw() : null;
}

/** Whether the kernel can run this method. */
export const isCompiled = (method: Prepared): method is Compiled =>
  method.estimator !== null &&
  method.estimator.kind !== NOT_COMPILED &&
  (method.curve === null || adderOf(method.curve) !== null);

/** Whether what the kernel was built for serves another plan too: then only numbers are new. */
const serves = (built: DrawPlan, plan: DrawPlan): boolean =>
  built.lactates === plan.lactates &&
  built.hasRest === plan.hasRest &&
  built.test.readings.length === plan.test.readings.length &&
  built.test.count.length === plan.test.count.length &&
  built.test.others.length === plan.test.others.length &&
  built.methods.length === plan.methods.length &&
  built.methods.every(
    ({ estimator, curve }, m) => estimator === plan.methods[m]!.estimator && curve === plan.methods[m]!.curve,
  );

/** Where in the kernel's memory what is drawn from and the draws are. */
interface Places {
  readings: number;
  noise: number;
  count: number;
  others: number;
  otherNoise: number;
  state: number;
  scale: number;
  lactates: number;
  drawnOthers: number;
  x: number;
  code: number;
}

/**
 * Draws of one test by the compiled kernel, block after block. Several tests may take turns: the kernel is loaded with
 * the plan of whoever asks, and goes on with its random numbers where they stopped.
 */
export class CompiledDraws {
  readonly #plan: DrawPlan;
  readonly #random: Random;
  /** Holds while the kernel is this one's. */
  #at: Places | null = null;

  constructor(plan: DrawPlan) {
    this.#plan = plan;
    this.#random = new Random(plan.seed);
  }

  /** Make so many draws, `MOST_AT_ONCE` at most. */
  next(draws: number): DrawnBlock {
    const { x, test, methods, lactates } = this.#plan;
    const from = kernel();
    const at = from.owner === this ? this.#at! : this.#load(from);
    // Should it stop half way, the plan is loaded anew.
    from.owner = null;
    from.exports.run(draws, at.scale, at.lactates, at.drawnOthers, at.x, at.code);
    from.owner = this;
    this.#random.state.set(from.integersAt(at.state, 4));
    this.#random.spare = from.exports.spare();
    const rows = lactates ? draws : 0;
    return {
      scale: from.floatsAt(at.scale, draws),
      lactates: from.floatsAt(at.lactates, rows * x.length),
      others: from.floatsAt(at.drawnOthers, rows * test.others.length),
      x: from.floatsAt(at.x, methods.length * draws),
      code: from.integersAt(at.code, methods.length * draws),
    };
  }

  /** Curves and estimators take as long to make as many draws: a plan with the same ones goes on with them. */
  #load(to: Kernel): Places {
    const before = to.owner instanceof CompiledDraws ? to.owner : null;
    const at = before && serves(before.#plan, this.#plan) ? before.#at! : this.#build(to);
    const { readings, noise, count, others, otherNoise, errors } = this.#plan.test;
    to.floatsAt(at.readings, readings.length).set(readings);
    to.floatsAt(at.noise, noise.length).set(noise);
    to.floatsAt(at.count, count.length).set(count);
    to.floatsAt(at.others, others.length).set(others);
    to.floatsAt(at.otherNoise, otherNoise.length).set(otherNoise);
    to.integersAt(at.state, 4).set(this.#random.state);
    const { gain, offset, intensityScale, rounding, contamination, contaminationSize } = errors;
    to.exports.start(
      this.#random.spare,
      gain,
      offset,
      intensityScale,
      rounding,
      contamination,
      contaminationSize,
    );
    to.owner = this;
    this.#at = at;
    return at;
  }

  #build(to: Kernel): Places {
    const { x, test, hasRest, methods, lactates } = this.#plan;
    to.reset();
    const state = to.integers(this.#random.state);
    const [readings, noise, count] = [to.floats(test.readings), to.floats(test.noise), to.floats(test.count)];
    const [others, otherNoise] = [to.floats(test.others), to.floats(test.otherNoise)];
    to.exports.begin(to.floats(x), readings, noise, count, others, otherNoise, hasRest ? 1 : 0, state);
    const indices = new Map<Curve, number>();
    for (const { estimator, curve } of methods) {
      if (curve && !indices.has(curve)) indices.set(curve, adderOf(curve)!(to));
      const index = curve ? indices.get(curve)! : -1;
      to.exports.addEstimator(estimator.kind, estimator.first, estimator.second, index);
    }
    const rows = lactates ? MOST_AT_ONCE : 0;
    return {
      ...{ state, readings, noise, count, others, otherNoise },
      scale: to.roomForFloats(MOST_AT_ONCE),
      lactates: to.roomForFloats(rows * x.length),
      drawnOthers: to.roomForFloats(rows * test.others.length),
      x: to.roomForFloats(methods.length * MOST_AT_ONCE),
      code: to.roomForIntegers(methods.length * MOST_AT_ONCE),
    };
  }
}
