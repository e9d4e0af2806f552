import { LogLogFit } from '../../../src/physiology/curves/index.ts';

/** Readings for the tests of curves: intensities, lactates, each sampled once. */
export const readingsOf = (x: readonly number[], y: readonly number[]) => ({
  x: Float64Array.from(x),
  y: Float64Array.from(y),
  count: new Uint8Array(x.length).fill(1),
});

/** Log–log lines for intensities each sampled once. */
export const logLogOn = (x: Float64Array) =>
  new LogLogFit(
    x,
    x.map(() => 1),
  );

/** Invented teaching tests. */
export const A = readingsOf([100, 140, 180, 220, 260, 300, 340], [0.9, 0.8, 0.9, 1.1, 1.6, 2.9, 7.9]);
export const B = readingsOf([8, 9, 10, 11, 12, 13, 14, 15], [1.3, 1.2, 1.3, 1.5, 1.9, 2.7, 4.2, 7.1]);

/** Test 10_pre of the CC0 set of Sylta et al. 2016, Med Sci Sports Exerc 48:2165–2174 (R package exscidata). */
export const TEN_PRE = readingsOf(
  [125, 175, 225, 250, 275, 300, 325, 350],
  [0.93, 0.87, 0.86, 0.92, 1.2, 1.69, 2.6, 4.69],
);
