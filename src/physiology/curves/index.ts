export type { Curve, FitStatus } from './curve.ts';
export { ExponentialCurve } from './exponentialCurve.ts';
export { LogLogFit } from './logLog.ts';
export { type FittedCurve, fitCurve, MODELS, prepareCurve } from './models.ts';
export { PolynomialCurve } from './polynomialCurve.ts';
export { RawCurve } from './rawCurve.ts';
export { SegmentedCurve } from './segmentedCurve.ts';
export { SplineCurve } from './splineCurve.ts';
