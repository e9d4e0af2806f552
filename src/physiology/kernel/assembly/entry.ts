// The compiled kernel as the rest of the program sees it (kernel.ts): a plan of curves and estimators that is built
// piece by piece, and run. The code that fits and answers is imported: it is what runs uncompiled everywhere else.

import { writeMoments } from '../../../numerics/writeMoments.ts';
import { Xoshiro } from '../../../numerics/xoshiro.ts';
import type { Curve } from '../../curves/curve.ts';
import { ExponentialCurve } from '../../curves/exponentialCurve.ts';
import { PolynomialCurve } from '../../curves/polynomialCurve.ts';
import { RawCurve } from '../../curves/rawCurve.ts';
import { SegmentedCurve } from '../../curves/segmentedCurve.ts';
import { SplineCurve } from '../../curves/splineCurve.ts';
import { DrawnErrors, LactateDraws } from '../../lactateDraws.ts';
import { Answer } from '../../methods/answer.ts';
import { FixedSlope, LogLogBend, SecondDerivative, TurnPoint } from '../../methods/estimators/bends.ts';
import { Dmax, ModifiedDmax } from '../../methods/estimators/chord.ts';
import { MinimumEquivalent, MinimumEquivalentPlus } from '../../methods/estimators/equivalent.ts';
import {
  AtRest,
  answerFrom,
  BASELINE_PLUS,
  CONSTANT,
  DMAX,
  type Estimator,
  FIRST_RISE,
  FIXED_LEVEL,
  FIXED_SLOPE,
  LOG_LOG,
  MINIMUM_EQUIVALENT,
  MINIMUM_EQUIVALENT_PLUS,
  MODIFIED_DMAX,
  SECOND_DERIVATIVE,
  SECOND_RISE,
  TURN_POINT,
} from '../../methods/estimators/estimator.ts';
import { BaselinePlus, Constant, FixedLevel } from '../../methods/estimators/level.ts';
import { FirstRise, SecondRise } from '../../methods/estimators/rises.ts';
import { codeNumber } from '../../refusalCodes.ts';
import { sortOut } from '../../sortedDraws.ts';

/** What one test is sampled with. */
class Plan {
  readonly curves: Curve[] = [];
  readonly estimators: Estimator[] = [];
  /** Curve of each estimator; -1 for none. */
  readonly curveOf: i32[] = [];
  readonly rest: AtRest = new AtRest();
  readonly answer: Answer = new Answer();

  constructor(
    readonly x: Float64Array,
    readonly count: Float64Array,
    readonly draws: LactateDraws,
    readonly errors: DrawnErrors,
    readonly random: Xoshiro,
    readonly hasRest: boolean,
  ) {}
}

let plan: Plan = changetype<Plan>(0);

/** Everything made so far is gone. */
export function reset(): void {
  heap.reset();
}

/** Room for numbers. */
export function floats(length: i32): Float64Array {
  return new Float64Array(length);
}

/** Room for whole numbers. */
export function integers(length: i32): Int32Array {
  return new Int32Array(length);
}

/** Begin the plan of a test; without curves and estimators so far. */
export function begin(
  x: Float64Array,
  readings: Float64Array,
  noise: Float64Array,
  count: Float64Array,
  others: Float64Array,
  otherNoise: Float64Array,
  hasRest: boolean,
  state: Int32Array,
): void {
  const random = new Xoshiro(state);
  const errors = new DrawnErrors();
  const draws = new LactateDraws(readings, noise, count, others, otherNoise, errors, random);
  plan = new Plan(x, count, draws, errors, random, hasRest);
}

/**
 * Start the draws of the plan, after the numbers of a test have been written to the arrays that it began with: the second
 * of the last pair of normal numbers, and the errors.
 */
export function start(
  spare: f64,
  gain: f64,
  offset: f64,
  intensityScale: f64,
  rounding: f64,
  contamination: f64,
  contaminationSize: f64,
): void {
  plan.random.spare = spare;
  for (let c = 0; c < plan.curves.length; c++) unchecked(plan.curves[c]).forget();
  const errors = plan.errors;
  errors.gain = gain;
  errors.offset = offset;
  errors.intensityScale = intensityScale;
  errors.rounding = rounding;
  errors.contamination = contamination;
  errors.contaminationSize = contaminationSize;
}

/** The second of the last pair of normal numbers, to go on with. */
export function spare(): f64 {
  return plan.random.spare;
}

function added(curve: Curve): i32 {
  return plan.curves.push(curve) - 1;
}

/** Add a polynomial curve; returns its index, as the others do. */
export function addPolynomial(degree: i32, projection: Float64Array): i32 {
  return added(new PolynomialCurve('cubic', degree, plan.x, projection));
}

/** Add a smoothing spline. */
export function addSpline(freedom: f64, hat: Float64Array, bending: Float64Array): i32 {
  return added(new SplineCurve(plan.x, freedom, hat, bending));
}

/** Add an exponential curve. */
export function addExponential(): i32 {
  return added(new ExponentialCurve(plan.x, plan.count));
}

/** Add a line of two or three segments. */
export function addSegmented(breaks: i32): i32 {
  return added(new SegmentedCurve(breaks === 1 ? 'two-segment' : 'three-segment', plan.x, plan.count));
}

/** Add straight lines between the readings. */
export function addRaw(): i32 {
  return added(new RawCurve(plan.x));
}

/** Add an estimator on the curve of this index, -1 for none. */
export function addEstimator(kind: i32, first: f64, second: f64, curve: i32): void {
  plan.estimators.push(estimatorOf(kind, first, second));
  plan.curveOf.push(curve);
}

function estimatorOf(kind: i32, first: f64, second: f64): Estimator {
  const x = plan.x;
  if (kind === FIXED_LEVEL) return new FixedLevel(first);
  if (kind === BASELINE_PLUS) return new BaselinePlus(first, second, plan.rest);
  if (kind === DMAX) return new Dmax(first, x);
  if (kind === MODIFIED_DMAX) return new ModifiedDmax(first, second, x, plan.rest);
  if (kind === FIRST_RISE) return new FirstRise(x);
  if (kind === SECOND_RISE) return new SecondRise(x);
  if (kind === MINIMUM_EQUIVALENT) return new MinimumEquivalent(x.length);
  if (kind === MINIMUM_EQUIVALENT_PLUS) return new MinimumEquivalentPlus(first, x.length);
  if (kind === TURN_POINT) return new TurnPoint(first);
  if (kind === LOG_LOG) return new LogLogBend(x, plan.count);
  if (kind === SECOND_DERIVATIVE) return new SecondDerivative(x);
  if (kind === FIXED_SLOPE) return new FixedSlope(first);
  assert(kind === CONSTANT);
  return new Constant(first);
}

/**
 * Make draws: writes the factor of intensity of each to `scale`, its lactates to rows of `lactates` (none if that is
 * empty) and of `others`, and each estimator's answers and codes to a row of so many of `x` and `code`.
 */
export function run(
  draws: i32,
  scale: Float64Array,
  lactates: Float64Array,
  others: Float64Array,
  x: Float64Array,
  code: Int32Array,
): void {
  const answer = plan.answer;
  const y = plan.draws.y;
  for (let d = 0; d < draws; d++) {
    plan.draws.next();
    scale[d] = plan.draws.scale;
    if (plan.hasRest) plan.rest.lactate = plan.draws.others[0];
    if (lactates.length > 0) copyRow(y, lactates, d);
    if (others.length > 0) copyRow(plan.draws.others, others, d);
    for (let c = 0; c < plan.curves.length; c++) unchecked(plan.curves[c]).fit(y);
    for (let m = 0; m < plan.estimators.length; m++) {
      const c = unchecked(plan.curveOf[m]);
      answerFrom(unchecked(plan.estimators[m]), c < 0 ? null : unchecked(plan.curves[c]), y, answer);
      const at = m * draws + d;
      x[at] = answer.x;
      const refused = answer.code;
      code[at] = refused === null ? 0 : codeNumber(refused);
    }
  }
}

function copyRow(row: Float64Array, table: Float64Array, d: i32): void {
  for (let i = 0, at = d * row.length; i < row.length; i++, at++) table[at] = row[i];
}

/**
 * What the draws of one method say: as `sortOut`, and mean and standard deviation of the answers. Nominal without a
 * scale (an empty one).
 */
export function sumUp(
  draws: i32,
  x: Float64Array,
  code: Int32Array,
  scale: Float64Array,
  answers: Float64Array,
  counts: Int32Array,
  moments: Float64Array,
): i32 {
  const answered = sortOut(draws, x, code, scale.length > 0 ? scale : null, answers, counts);
  writeMoments(answers, answered, null, moments);
  return answered;
}

export { writeDensity } from '../../../numerics/density.ts';
export { writeRanked } from '../../../numerics/selection.ts';

/** Let go of the array that was made last. */
export function letGo(address: usize): void {
  heap.free(address);
}
