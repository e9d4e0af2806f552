import { formatNumber } from '../../base/format.ts';
import { alreadyAbove, lactateText, notConvex, notReached, singular } from '../refusal.ts';
import type { RefusalCode } from '../refusalCodes.ts';
import type { Answer } from './answer.ts';
import type { Situation } from './method.ts';

/** The sentence for a level that could not be crossed. */
export function explainLevel(code: RefusalCode, level: number, { readings, curve }: Situation): string {
  const { x, y, axis } = readings;
  if (code === 'E_ALREADY_ABOVE') return alreadyAbove(level, x[0]!, axis);
  if (code === 'E_NOT_REACHED' && curve) {
    const last = y.length - 1;
    const reason = notReached(level, curve.peak(), x[last]!, axis);
    return y[last]! < level ? reason : `${reason} The last reading does reach it; the fitted curve does not.`;
  }
  return code === 'E_NOT_CONVEX' ? notConvex() : singular(x.length);
}

/** Cautions for an answer read off a curve at a level. */
export function levelWarnings({ x, lactate }: Answer, { curve }: Situation): string[] {
  if (!curve) return [];
  const warnings: string[] = [];
  if (curve.upwardCrossings(lactate) > 1) {
    warnings.push(
      `The curve rises through ${lactateText(lactate)} more than once; the last crossing is given.`,
    );
  }
  if (Math.min(curve.curvature(x), curve.curvature(curve.hi)) < 0) {
    warnings.push(
      'The fitted curve flattens at or beyond this point, which lactate does not do: try another curve.',
    );
  }
  return warnings;
}

/** A fixed amount as it stands in an id or a name: 0.5, 1.0. */
export const oneDecimal = (amount: number): string => formatNumber(amount, 1);
