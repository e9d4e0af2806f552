export type { Curve, FitStatus } from './curve.ts';
export { ExponentialCurve } from './exponentialCurve.ts';
export { type FittedCurve, fitCurve, MODELS, prepareCurve } from './models.ts';
export { PolynomialCurve } from './polynomialCurve.ts';
export { RawCurve } from './rawCurve.ts';
