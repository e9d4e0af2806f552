import { bracketedNewton, type Differentiable } from './bracketedNewton.ts';
import { HouseholderQr } from './householderQr.ts';

type Matrix = Float64Array[];

/** Range of ln λ on points scaled to unit width: from interpolation to a straight line. */
const LEAST_LOG = -40;
const GREATEST_LOG = 25;

/**
 * Cubic smoothing spline with a fixed number of effective degrees of freedom, as two matrices.
 *
 * Model     minimises Σ w(y − s)² + λ∫s″²; natural ends; λ such that the trace of the hat matrix is `df`
 * Shape     z ascending, scaled to [0, 1], n >= 4; 2 < df < n
 * Accuracy  9 digits against scipy's smoothing spline (tests/numerics/smoothingSpline.test.ts)
 * Cost      O(n³) once per set of points; a fit is two matrix products
 * Source    Reinsch 1967, Numer Math 10:177–183 (from memory); Green & Silverman 1994, Nonparametric
 *           Regression and Generalized Linear Models, ch. 2 (from memory)
 */
export class SmoothingSpline {
  readonly lambda: number;
  /** Row i holds the weights of the readings in the fitted value at point i (the hat matrix). */
  readonly hat: Matrix;
  /** Row i holds the weights of the readings in the second derivative at point i; 0 at both ends. */
  readonly bending: Matrix;

  constructor(z: ArrayLike<number>, df: number, weights?: ArrayLike<number>) {
    const n = z.length;
    const roughness = roughnessOf(z);
    const differences = differencesOf(z);
    const w = Float64Array.from(z, (_, i) => weights?.[i] ?? 1);
    const penalty = differences.map((a) => Float64Array.from(differences, (b) => weighted(a, b, w)));
    this.lambda = Math.exp(bracketedNewton(new Trace(roughness, penalty, n), df, LEAST_LOG, GREATEST_LOG));
    const system = combine(roughness, penalty, this.lambda);
    const solver = new HouseholderQr(system);
    const columns = Array.from({ length: n }, (_, i) =>
      solver.solve(solver.rotate(differences.map((d) => d[i]!))),
    );
    const inner = differences.map((_, j) => Float64Array.from(columns, (column) => column[j]!));
    this.bending = [new Float64Array(n), ...inner, new Float64Array(n)];
    this.hat = Array.from(w, (weight, i) =>
      Float64Array.from(w, (_, k) => {
        let pull = 0;
        for (let j = 0; j < differences.length; j++) pull += differences[j]![i]! * inner[j]![k]!;
        return (i === k ? 1 : 0) - (this.lambda / weight) * pull;
      }),
    );
  }
}

/** Effective degrees of freedom, n − λ·tr(A⁻¹P) with A = R + λP, as a function of ln λ. */
class Trace implements Differentiable {
  readonly #roughness: Matrix;
  readonly #penalty: Matrix;
  readonly #n: number;
  /** λ·A⁻¹P at the latest ln λ. */
  readonly #share: Matrix = [];

  constructor(roughness: Matrix, penalty: Matrix, n: number) {
    this.#roughness = roughness;
    this.#penalty = penalty;
    this.#n = n;
  }

  at(logLambda: number): number {
    const lambda = Math.exp(logLambda);
    const solver = new HouseholderQr(combine(this.#roughness, this.#penalty, lambda));
    let sum = this.#n;
    for (let j = 0; j < this.#penalty.length; j++) {
      const row = solver.solve(solver.rotate(this.#penalty[j]!));
      for (let k = 0; k < row.length; k++) row[k]! *= lambda;
      this.#share[j] = row;
      sum -= row[j]!;
    }
    return sum;
  }

  /** Derivative at the ln λ that `at` was last asked for, which is where Newton's method stands. */
  slope(_logLambda: number): number {
    const share = this.#share;
    let sum = 0;
    for (let j = 0; j < share.length; j++) {
      sum -= share[j]![j]!;
      for (let k = 0; k < share.length; k++) sum += share[j]![k]! * share[k]![j]!;
    }
    return sum;
  }
}

/** R of the roughness ∫s″² = γ'Rγ, γ the second derivatives at the inner points. */
function roughnessOf(z: ArrayLike<number>): Matrix {
  const m = z.length - 2;
  return Array.from({ length: m }, (_, j) =>
    Float64Array.from({ length: m }, (_, k) => {
      if (j === k) return (z[j + 2]! - z[j]!) / 3;
      const right = Math.max(j, k);
      return Math.abs(j - k) === 1 ? (z[right + 1]! - z[right]!) / 6 : 0;
    }),
  );
}

/** Rows of the second differences that R·γ must equal. */
function differencesOf(z: ArrayLike<number>): Matrix {
  return Array.from({ length: z.length - 2 }, (_, j) => {
    const row = new Float64Array(z.length);
    row[j] = 1 / (z[j + 1]! - z[j]!);
    row[j + 2] = 1 / (z[j + 2]! - z[j + 1]!);
    row[j + 1] = -row[j]! - row[j + 2]!;
    return row;
  });
}

function weighted(a: Float64Array, b: Float64Array, w: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i]! * b[i]!) / w[i]!;
  return sum;
}

function combine(roughness: Matrix, penalty: Matrix, lambda: number): Matrix {
  return roughness.map((row, j) => {
    const sum = new Float64Array(row.length);
    for (let k = 0; k < row.length; k++) sum[k] = row[k]! + lambda * penalty[j]![k]!;
    return sum;
  });
}
