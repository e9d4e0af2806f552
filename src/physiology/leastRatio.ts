import { bracketedNewton } from '../numerics/bracketedNewton.ts';
import type { Curve } from './curves/curve.ts';

/** Parts that each gap between stages is searched in; every stage is a grid point too. */
const PARTS = 3;
/** Halvings of the bracket on curves with corners: 2^−40 of a part. */
const HALVINGS = 40;

/**
 * Where lactate per unit of intensity, f(x)/x, is least on a curve; an end of the tested range when the ratio
 * still falls there. Prepared once for the intensities of a test; `of` allocates nothing.
 *
 * Model     there a line through the origin touches the curve: x·f′(x) − f(x) changes sign
 * Shape     intensities above 0
 * Stops     between the grid neighbours of the least value: Newton on smooth curves, bisection on corners
 */
export class LeastRatio {
  readonly #grid: Float64Array;
  #curve: Curve | null = null;

  constructor(x: Float64Array) {
    const gaps = x.length - 1;
    this.#grid = new Float64Array(gaps * PARTS + 1);
    for (let k = 0; k < this.#grid.length; k++) {
      const i = Math.min(Math.floor(k / PARTS), gaps - 1);
      const share = k / PARTS - i;
      this.#grid[k] = (1 - share) * x[i]! + share * x[i + 1]!;
    }
  }

  of(curve: Curve): number {
    this.#curve = curve;
    const grid = this.#grid;
    let best = 0;
    let least = Infinity;
    for (let k = 0; k < grid.length; k++) {
      const ratio = curve.at(grid[k]!) / grid[k]!;
      if (ratio < least) {
        least = ratio;
        best = k;
      }
    }
    const low = grid[Math.max(0, best - 1)]!;
    const high = grid[Math.min(grid.length - 1, best + 1)]!;
    if (!curve.curvature) return this.#bisect(low, high);
    const touching = bracketedNewton(this, 0, low, high);
    return Number.isNaN(touching) ? grid[best]! : touching;
  }

  #bisect(from: number, to: number): number {
    let [low, high] = [from, to];
    for (let i = 0; i < HALVINGS; i++) {
      const middle = (low + high) / 2;
      if (this.at(middle) < 0) low = middle;
      else high = middle;
    }
    return (low + high) / 2;
  }

  /** Sign of the slope of the ratio at x: x·f′(x) − f(x). */
  at(x: number): number {
    return x * this.#curve!.slope(x) - this.#curve!.at(x);
  }

  /** Its derivative: x·f″(x). */
  slope(x: number): number {
    return x * this.#curve!.curvature!(x);
  }
}
