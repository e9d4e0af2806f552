/** One line of the bench: what was measured, what came out, and what was set as its budget; '' for none. */
export interface Measured {
  what: string;
  figure: string;
  budget: string;
}

const sorted = (values: readonly number[]) => values.toSorted((a, b) => a - b);
export const median = (values: readonly number[]) => sorted(values)[Math.floor(values.length / 2)]!;
export const percentile95 = (values: readonly number[]) =>
  sorted(values)[Math.ceil(values.length * 0.95) - 1]!;
export const milliseconds = (value: number) => `${value.toFixed(value < 10 ? 1 : 0)} ms`;
