import { intensityText, lactateText, notConvex, singular } from '../refusal.ts';
import { refuse } from './answer.ts';
import { farthestBelowChord, slopeBetween } from './chord.ts';
import { isRise, SUSTAINED_RISE } from './firstRise.ts';
import type { Method } from './method.ts';

/** Index of the reading before the first rise of more than 0.4 mmol/L over one stage; -1 when there is none. */
function anchor(y: Float64Array): number {
  for (let i = 0; i + 1 < y.length; i++) {
    if (isRise(y[i]!, y[i + 1]!)) return i;
  }
  return -1;
}

/** How near the limit, mmol/L, a rise has to be for noise to carry the anchor to another stage (our rule). */
const CLOSE_CALL = 0.2;

/** Modified Dmax: the chord starts at the measured point before the first rise, and ends at the last measured one. */
export const modifiedDmax: Method = {
  id: 'modified-dmax',
  name: 'Modified Dmax',
  claim: 'LT2',
  meaning:
    'The point of the curve farthest from the straight line between the stage before the first rise and the last stage.',
  source: 'Bishop, Jenkins & Mackinnon 1998, Med Sci Sports Exerc 30:1270–1275 (from memory)',
  curve: 'cubic',
  anyCurve: false,
  minPoints: 5,
  maximal: true,
  discrete: false,
  bias: 'The start of the line jumps a whole stage with small errors: look at the distribution, not only at its spread.',
  prepare:
    ({ x }) =>
    (y, curve, answer) => {
      const start = anchor(y);
      const last = y.length - 1;
      if (start < 0) return refuse(answer, 'E_NO_RISE');
      if (start >= last - 1) return refuse(answer, 'E_EDGE');
      const slope = slopeBetween(x[start]!, y[start]!, x[last]!, y[last]!);
      farthestBelowChord(curve!, slope, x[start]!, answer);
    },
  explain: (code, { readings }) => {
    if (code === 'E_NO_RISE')
      return `No stage reads more than ${lactateText(SUSTAINED_RISE)} above the one before.`;
    if (code === 'E_EDGE') {
      return `Lactate first rises by more than ${lactateText(SUSTAINED_RISE)} at the last stage: no curve is left between.`;
    }
    return code === 'E_NOT_CONVEX' ? notConvex() : singular(readings.x.length);
  },
  warnings: (_answer, { readings }) => {
    const { x, y, axis } = readings;
    const start = anchor(y);
    const rises = [...y].slice(0, start + 1).map((value, i) => y[i + 1]! - value);
    const close = rises.some((rise) => Math.abs(rise - SUSTAINED_RISE) < CLOSE_CALL);
    const place = `The line starts at ${intensityText(x[start]!, axis)}, the stage before the first rise.`;
    return close
      ? [
          `${place} A rise there is close to ${lactateText(SUSTAINED_RISE)}: a small error moves the start a whole stage.`,
        ]
      : [place];
  },
};
