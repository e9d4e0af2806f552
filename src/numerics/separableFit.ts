import { InputError } from '../base/inputError.ts';
import { HouseholderQr } from './householderQr.ts';
import { leastSquares } from './leastSquares.ts';

/** A model y = Σ linear[j]·φ_j(x; shape), as columns over the points. */
export interface SeparableModel {
  /** The columns φ_j for these shape parameters. */
  basis(shape: Float64Array): Float64Array[];
  /** For each shape parameter the derivatives of the columns φ_j by it. */
  derivatives(shape: Float64Array): Float64Array[][];
}

/** What a fit found whose parameters are partly linear; read `status` first. */
export interface SeparableFit {
  /** 'iteration-limit' and 'singular': what is returned is not the best fit. */
  status: 'ok' | 'iteration-limit' | 'singular';
  linear: Float64Array;
  shape: Float64Array;
  /** Standard errors of the linear and then of the shape parameters; NaN without degrees of freedom. */
  standardErrors: Float64Array;
  sse: number;
}

/** Relative step at which the fit is settled, and how often a step may be tried. */
const SETTLED = 1e-12;
/** A sum of squares that grows by no more than this share has not grown: near the end rounding is all there is. */
const ROUNDING = 1e-12;
const MOST_STEPS = 500;
const MOST_DAMPING = 1e20;

/**
 * Least squares for models that are linear in most of their parameters.
 *
 * Model     variable projection: the linear parameters are always at their best, Levenberg–Marquardt steps move
 *           the shape parameters alone, damped against the size of their own columns
 * Shape     y[n], n >= linear + shape parameters; `start` for the shape parameters only
 * Stops     when a step moves no shape parameter by more than 1e-12 of itself; 500 steps at most
 * Accuracy  10 digits on 26 NIST StRD sets from both starts, fewer where readings leave nothing over
 *           (tests/references/nist/digits.md)
 * Source    Golub & Pereyra 1973, SIAM J Numer Anal 10:413–432; simplification of Kaufman 1975, BIT 15:49–57;
 *           Marquardt 1963, J Soc Ind Appl Math 11:431–441 (all from memory)
 */
export function separableFit(
  model: SeparableModel,
  y: ArrayLike<number>,
  start: ArrayLike<number>,
  { weights }: { weights?: ArrayLike<number> } = {},
): SeparableFit {
  let shape = Float64Array.from(start);
  let state = project(model, y, shape, weights);
  if (state === null)
    throw new InputError('The fit cannot begin from this start: the model has no value there');
  // Residuals far below the readings carry the readings' rounding, and so does their sum of squares.
  const noise = Number.EPSILON * size(Float64Array.from(y));
  let damping = 1e-3;
  let status: SeparableFit['status'] = 'iteration-limit';
  for (let steps = 0; steps < MOST_STEPS && damping < MOST_DAMPING; steps++) {
    const step = dampedStep(model, shape, state, damping, weights);
    if (step === null) {
      damping *= 8;
      continue;
    }
    const tried = shape.map((value, k) => value + step[k]!);
    const next = project(model, y, tried, weights);
    if (step.every((move, k) => Math.abs(move) <= SETTLED * Math.abs(shape[k]!))) {
      if (next !== null) [shape, state] = [tried, next];
      status = 'ok';
      break;
    }
    if (next !== null && next.sse <= state.sse * (1 + ROUNDING) + noise * Math.sqrt(state.sse)) {
      [shape, state] = [tried, next];
      damping /= 8;
    } else damping *= 8;
  }
  return finish(model, shape, state, status, weights);
}

interface Projection {
  columns: Float64Array[];
  linear: Float64Array;
  residuals: Float64Array;
  sse: number;
}

/** The best linear parameters for a shape; null where the model has no value or its columns coincide. */
function project(
  model: SeparableModel,
  y: ArrayLike<number>,
  shape: Float64Array,
  weights?: ArrayLike<number>,
): Projection | null {
  const columns = model.basis(shape);
  if (columns.some((column) => column.some((value) => !Number.isFinite(value)))) return null;
  const { status, coefficients, residuals, sse } = leastSquares(columns, y, { weights });
  return status === 'ok' ? { columns, linear: coefficients, residuals, sse } : null;
}

/** How the fitted values change with each shape parameter, the linear ones held. */
function tangents(model: SeparableModel, shape: Float64Array, linear: Float64Array): Float64Array[] {
  return model
    .derivatives(shape)
    .map((columns) =>
      columns[0]!.map((_, i) => columns.reduce((sum, column, j) => sum + linear[j]! * column[i]!, 0)),
    );
}

/**
 * Step of the shape parameters: least squares of the residuals on all columns at once, whose shape part is the
 * projected step; extra rows hold the shape parameters back.
 */
function dampedStep(
  model: SeparableModel,
  shape: Float64Array,
  { columns, linear, residuals }: Projection,
  damping: number,
  weights?: ArrayLike<number>,
): Float64Array | null {
  const moves = tangents(model, shape, linear);
  const held = (k: number) => moves.map((move, j) => (j === k ? Math.sqrt(damping) * size(move) : 0));
  const none = moves.map(() => 0);
  const design = [
    ...columns.map((column) => [...column, ...none]),
    ...moves.map((move, k) => [...move, ...held(k)]),
  ];
  const all = weights ? [...Array.from(weights), ...none.map(() => 1)] : undefined;
  const fit = leastSquares(design, [...residuals, ...none], { weights: all });
  const step = fit.coefficients.subarray(columns.length);
  return fit.status === 'ok' && step.every(Number.isFinite) ? step : null;
}

const size = (values: Float64Array): number => Math.sqrt(values.reduce((sum, v) => sum + v * v, 0));

function finish(
  model: SeparableModel,
  shape: Float64Array,
  { columns, linear, residuals, sse }: Projection,
  status: SeparableFit['status'],
  weights?: ArrayLike<number>,
): SeparableFit {
  const qr = new HouseholderQr([...columns, ...tangents(model, shape, linear)], weights);
  const freedom = residuals.length - qr.columns;
  const residualSd = freedom > 0 ? Math.sqrt(sse / freedom) : NaN;
  return {
    status: qr.singular ? 'singular' : status,
    linear,
    shape,
    standardErrors: qr.unitStandardErrors().map((unit) => unit * residualSd),
    sse,
  };
}
