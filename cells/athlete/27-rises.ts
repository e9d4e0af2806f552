import { pairs } from 'd3-array';
import { prose } from '#hourline';
import { readings } from './25-readings.ts';

const { x, y } = readings;
const points = Array.from(x, (at, i) => ({
  at,
  lactate: y[i]!,
}));

export const rises = pairs(points, (a, b) => ({
  from: a.at,
  to: b.at,
  rise: b.lactate - a.lactate,
}));
export const falls = rises.filter(({ rise }) => rise < 0);

export default prose`
  Before any curve, look at the steps: how much lactate rose
  from one stage to the next. A handheld meter alone makes
  differences of up to half a mmol/L, so small steps and small
  falls mean nothing yet.`;
