import type { CurveId } from '../stepTest.ts';
import { Curve } from './curve.ts';

/** Lactates closer than this share are equal: where a line is level, its first corner counts as the lowest (our rule). */
const EQUAL: number = 1e-12;

/** What every curve made of straight pieces reads the same way, from its corners (first lo, last hi). */
export abstract class StraightPieces extends Curve {
  /** Intensities and lactates of the corners, ascending; refilled by `fit`. */
  readonly cornerX: Float64Array;
  readonly cornerY: Float64Array;

  constructor(model: CurveId, parameters: number, x: Float64Array, corners: i32) {
    super(model, parameters, x[0]!, x[x.length - 1]!);
    this.cornerX = new Float64Array(corners);
    this.cornerY = new Float64Array(corners);
    for (let i = 0; i < corners; i++) {
      this.cornerX[i] = NaN;
      this.cornerY[i] = NaN;
    }
  }

  /** Index of the piece that holds x; at a corner the piece to its right, at hi the last one. */
  #piece(x: number): i32 {
    let i = 0;
    while (i < this.cornerX.length - 2 && x >= this.cornerX[i + 1]!) i++;
    return i;
  }

  #slopeOf(piece: i32): number {
    const rise = this.cornerY[piece + 1]! - this.cornerY[piece]!;
    return rise / (this.cornerX[piece + 1]! - this.cornerX[piece]!);
  }

  at(x: number): number {
    if (x === this.hi) return this.cornerY[this.cornerY.length - 1]!;
    const i = this.#piece(x);
    return this.cornerY[i]! + (x - this.cornerX[i]!) * this.#slopeOf(i);
  }

  /** At a corner the slope to its right. */
  slope(x: number): number {
    return this.#slopeOf(this.#piece(x));
  }

  /** Straight pieces have none. */
  curvature(_x: number): number {
    return NaN;
  }

  lowest(): number {
    let lowest = 0;
    for (let i = 1; i < this.cornerY.length; i++) {
      const least = this.cornerY[lowest]!;
      if (this.cornerY[i]! < least - EQUAL * Math.abs(least)) lowest = i;
    }
    return this.cornerX[lowest]!;
  }

  peak(): number {
    let peak = this.cornerY[0]!;
    for (let i = 1; i < this.cornerY.length; i++) peak = Math.max(peak, this.cornerY[i]!);
    return peak;
  }

  protected lastRise(level: number, from: number): number {
    const start = Math.max(from, this.lowest());
    for (let i = this.cornerX.length - 2; i >= 0 && this.cornerX[i + 1]! > start; i--) {
      const left = start > this.cornerX[i]! ? this.at(start) : this.cornerY[i]!;
      if (left < level && this.cornerY[i + 1]! >= level) {
        return Math.min(
          this.cornerX[i + 1]!,
          this.cornerX[i]! + (level - this.cornerY[i]!) / this.#slopeOf(i),
        );
      }
    }
    return this.at(start) === level && start < this.hi ? start : NaN;
  }

  upwardCrossings(level: number): i32 {
    let count = 0;
    for (let i = 1; i < this.cornerY.length; i++) {
      if (this.cornerY[i - 1]! < level && this.cornerY[i]! >= level) count++;
    }
    return count;
  }

  protected lowestTouch(slope: number, from: number): number {
    let best = NaN;
    let height = Infinity;
    for (let i = 1; i < this.cornerX.length - 1; i++) {
      const x = this.cornerX[i]!;
      if (!(x > from && this.#slopeOf(i - 1) < slope && this.#slopeOf(i) >= slope)) continue;
      if (this.cornerY[i]! - slope * x < height) {
        height = this.cornerY[i]! - slope * x;
        best = x;
      }
    }
    return best;
  }
}
