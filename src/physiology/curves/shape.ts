import type { Curve } from './curve.ts';
import { SmoothCurve } from './smoothCurve.ts';
import { StraightPieces } from './straightPieces.ts';

/** How a fitted curve bends; lactate curves have one lowest point and then rise ever more steeply. */
export interface CurveShape {
  /** Intensities where the curve changes from bending up to bending down or back. */
  inflections: number[];
  /** Intensities of low points inside the range, ascending; more than one is a sign of a bad fit. */
  minima: number[];
  /** The curve falls from the first stage on. */
  fallsAtStart: boolean;
}

/** How a fitted curve bends; of use only after a fit whose status is ok. */
export function shapeOf(curve: Curve): CurveShape {
  const fallsAtStart = curve.slope(curve.lo) < 0;
  if (curve instanceof SmoothCurve) {
    const minima = curve.turningPoints().filter((x) => curve.curvature(x) > 0);
    return { inflections: curve.inflections(), minima, fallsAtStart };
  }
  if (curve instanceof StraightPieces) return { inflections: [], minima: lowCorners(curve), fallsAtStart };
  return { inflections: [], minima: [], fallsAtStart };
}

function lowCorners({ cornerX, cornerY }: StraightPieces): number[] {
  const inner = [...cornerX].map((_, i) => i).slice(1, -1);
  return inner
    .filter((i) => cornerY[i]! < cornerY[i - 1]! && cornerY[i]! <= cornerY[i + 1]!)
    .map((i) => cornerX[i]!);
}
