import { InputError } from '../base/inputError.ts';
import { moments } from './moments.ts';

/** Shares of the variance of one output by input; noise may put a share a little below 0. */
export interface SobolShares {
  /** What each input explains alone. */
  first: number[];
  /** What it explains alone and together with others. */
  total: number[];
  /** Monte Carlo standard errors of both; NaN when there are too few rows for batches. */
  firstError: number[];
  totalError: number[];
  /** Rows counted: those with every value finite. */
  rows: number;
}

/** Values of one output: for two independent samples of the inputs, and for the first with one input of the second. */
export interface SobolValues {
  a: Float64Array;
  b: Float64Array;
  /** One for each input. */
  mixed: readonly Float64Array[];
}

const BATCHES = 10;

/**
 * First-order and total shares of variance from the values of two samples and their mixtures.
 *
 * Model     first: mean of b·(mixed − a), a and b less their common mean; total: half the mean of (mixed − a)²; both
 *           over the variance of a and b together
 * Missing   rows with a value that is not finite are left out of all; without variance every share is 0
 * Error     standard errors from ten batches of rows
 * Accuracy  12 digits against scipy on the same values (tests/numerics/sobolShares.test.ts)
 * Source    Saltelli et al. 2010, Comput Phys Commun 181:259–270, table 2 b; Jansen 1999, Comput Phys Commun 117:35–43
 *           (both from memory)
 */
export function sobolShares({ a, b, mixed }: SobolValues): SobolShares {
  if ([b, ...mixed].some((values) => values.length !== a.length)) {
    throw new InputError(`Every sample must have ${a.length} rows like the first`);
  }
  const kept = [...a.keys()].filter((row) =>
    [a, b, ...mixed].every((values) => Number.isFinite(values[row])),
  );
  const all = sharesOf({ a, b, mixed }, kept);
  const batch = Math.floor(kept.length / BATCHES);
  const batches = Array.from({ length: BATCHES }, (_, k) =>
    sharesOf({ a, b, mixed }, kept.slice(k * batch, (k + 1) * batch)),
  );
  const errors = (which: 'first' | 'total') =>
    mixed.map((_, i) => moments(batches.map((one) => one[which][i]!)).sd / Math.sqrt(BATCHES));
  return { ...all, firstError: errors('first'), totalError: errors('total'), rows: kept.length };
}

/** The shares from these rows alone. */
function sharesOf(
  { a, b, mixed }: SobolValues,
  rows: readonly number[],
): { first: number[]; total: number[] } {
  const sample = rows.flatMap((row) => [a[row]!, b[row]!]);
  const { mean } = moments(sample);
  const variance = sample.reduce((sum, value) => sum + (value - mean) ** 2, 0) / sample.length;
  const share = (values: Float64Array, term: (gap: number, row: number) => number) => {
    let sum = 0;
    for (const row of rows) sum += term(values[row]! - a[row]!, row);
    return variance === 0 ? 0 : sum / rows.length / variance;
  };
  return {
    first: mixed.map((values) => share(values, (gap, row) => (b[row]! - mean) * gap)),
    total: mixed.map((values) => share(values, (gap) => 0.5 * gap * gap)),
  };
}
